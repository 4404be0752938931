// `packet` from the command line: what a packet file may say, and what is written for it.
import { describe, expect, it } from 'vitest';
import { packet } from '../../../server/src/cli/commands/packet.ts';
import { readPacket } from '../../../server/src/cli/packet-file.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { demoBook } from '../../support/handout.ts';
import { memoryIo } from '../../support/memory-io.ts';

const tunes =
  'X:1\nT:Low Road\nI:bullfiddle tune=road version=low\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nG,A,B,G,|D,4|]\n\n' +
  'X:2\nT:Low Road\nI:bullfiddle tune=road version=high\nM:4/4\nL:1/4\nK:G clef=bass\nGABG|D4|]\n';
const settings = '{ "players": { "T.B.": { "mensur": 975 } } }';

async function call(file: unknown, args: readonly string[] = ['set/lesson.json', '--out', 'out']) {
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  const io = memoryIo({ 'set/road.abc': tunes, 'set/lesson.json': text, 'set/bullfiddle.json': settings });
  const code = await runCommandLine(['packet', ...args], io, [packet], '1');
  return { code, err: io.said.err, files: io.files, written: [...io.files.keys()].filter((name) => name.startsWith('out/')) };
}

describe('packet', () => {
  it('writes the plan with the sheets, and the tracks of each tune', async () => {
    const low = { file: 'road.abc', version: 'low', bars: ['1'], tempos: [90, 120], times: 1 };
    const { code, err, written, files } = await call({ player: 'T.B.', date: '2026-02-03', tunes: [low] });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(written).toEqual(['out/lesson.pdf', 'out/low-road.mid', 'out/low-road.wav', 'out/low-road-bars-1-1.wav']);
    const sound = files.get('out/low-road-bars-1-1.wav') as Uint8Array;
    // A bar counted in and a bar played at each tempo: 16 beats in all, 44100 samples of two bytes a second, 1.2 s to ring out.
    expect((sound.length - 44) / 2 / 44100).toBeCloseTo(8 / 1.5 + 8 / 2 + 1.2, 3);
  });

  it('says of each wrong thing where it stands and what to write', async () => {
    const said = async (file: unknown): Promise<string> => (await call(file)).err;
    expect(await said('{ "tunes": [\n }')).toMatch(/^set\/lesson\.json: .*this is no valid JSON/);
    expect(await said('[]')).toBe('set/lesson.json: this must be an object with player, date, note, tunes.\n');
    expect(await said({})).toContain('tunes: name at least one tune');
    expect(await said({ tune: [] })).toContain('tune: no such field. Did you mean "tunes"?');
    expect(await said({ date: 'May', tunes: [{ file: 'road.abc', number: 1 }] })).toContain('date: this must be a day like 2026-01-31.');
    expect(await said({ tunes: [{ version: 'low' }] })).toContain('tunes[0].file: name the tune file');
    const tune = (more: object) => said({ tunes: [{ file: 'road.abc', number: 1, ...more }] });
    expect(await tune({ bars: ['4-3'] })).toContain('tunes[0].bars[0]: these must be bars like "3-4" or "7".');
    expect(await tune({ bars: ['7'] })).toContain('tunes[0]: it has bars 1 to 2, not 7-7.');
    expect(await tune({ tempos: [5] })).toContain('tunes[0].tempos[0]: this must be a tempo from 10 to 400');
    expect(await tune({ times: 1.5 })).toContain('tunes[0].times: this must be a whole number from 1 to 20.');
  });

  it('names the tunes of a file where none or several fit, and the players there are', async () => {
    expect((await call({ tunes: [{ file: 'road.abc' }] })).err).toContain(
      'tunes[0]: more than one tune of road.abc fits: it holds X:1 low, X:2 high. Say "version" or "number".',
    );
    expect((await call({ tunes: [{ file: 'road.abc', version: 'middle' }] })).err).toContain('tunes[0]: no tune of road.abc fits');
    expect((await call({ player: 'X.Y.', tunes: [{ file: 'road.abc', number: 1 }] })).err).toContain('no player "X.Y.": known are T.B.');
    expect(await call({ tunes: [{ file: 'gone.abc' }] })).toMatchObject({ code: 2, written: [] });
  });
});

describe('the demo packet', () => {
  it('reads without a problem and names tunes that are there', async () => {
    const text = await memoryIo().asset('demo/packet.json');
    const { list: file, problems } = readPacket(new TextDecoder().decode(text));
    expect(problems).toEqual([]);
    for (const { name } of file!.tunes) expect(demoBook(name.file.replace('.abc', ''))).toContain(`version=${name.version}`);
  });
});
