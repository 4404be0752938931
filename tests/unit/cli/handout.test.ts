// `handout` from the command line: what is written, under which names, and what is said when something fails.
import { describe, expect, it } from 'vitest';
import { handout } from '../../../server/src/cli/commands/handout.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { memoryIo } from '../../support/memory-io.ts';

const book = 'X:1\nT:Low Road\nK:G clef=bass\nG,2 D,2|\n\nX:2\nT:Low Road\nK:G clef=bass\nD,4|\n';

async function call(args: readonly string[], change: object = {}) {
  const io = { ...memoryIo({ 'set/road.abc': book, 'empty.abc': 'nothing here\n' }), ...change };
  const code = await runCommandLine(['handout', ...args], io, [handout], '1');
  return { code, ...io.said, written: [...io.files.keys()].filter((name) => name.startsWith('out/')), files: io.files };
}

describe('handout', () => {
  it('writes each format under a name from the file or the title, and prints the names', async () => {
    const { code, out, err, written } = await call(['set/road.abc', '--out', 'out', '--format', 'text,midi,wav,musicxml']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const titled = ['mid', 'wav', 'musicxml'].flatMap((ending) => [`out/low-road.${ending}`, `out/low-road-2.${ending}`]);
    expect(written.sort()).toEqual(['out/road.txt', ...titled].sort());
    expect(out.split('\n').filter(Boolean).sort()).toEqual(written.sort());
  });

  it('writes pages of one tune, dated as told', async () => {
    const { code, written, files } = await call([
      'set/road.abc',
      '--out',
      'out',
      '--tune',
      '2',
      '--format',
      'pdf,svg',
      '--date',
      '2026-02-03',
    ]);
    expect(code).toBe(0);
    expect(written).toEqual(['out/road.pdf', 'out/road-page-1.svg']);
    expect(new TextDecoder().decode(files.get('out/road.pdf') as Uint8Array).slice(0, 5)).toBe('%PDF-');
  });

  it('says where a tune has no chords to play', async () => {
    const { code, err, written } = await call(['set/road.abc', '--out', 'out', '--tune', '1', '--format', 'wav', '--chords']);
    expect({ code, written }).toEqual({ code: 2, written: [] });
    expect(err).toContain('"Low Road": it has no chord symbols that could be played');
    expect(await call(['set/road.abc', '--out', 'out', '--tune', '1', '--format', 'wav', '--drone', 'fifth'])).toMatchObject({ code: 0 });
  });

  it('asks for a folder, and says where there is no tune', async () => {
    expect((await call(['set/road.abc'])).err).toMatch(/^bullfiddle handout: say where to write: --out DIR\./);
    expect(await call(['empty.abc', '--out', 'out'])).toMatchObject({
      code: 2,
      err: 'empty.abc: no tune in it (a tune begins with X:).\n',
    });
    expect(await call(['set/road.abc', '--out', 'out', '--tune', '7'])).toMatchObject({
      code: 2,
      err: 'set/road.abc: no tune with X:7.\n',
    });
    expect((await call(['set/road.abc', '--out', 'out', '--for', 'AB'])).err).toContain('no player "AB"');
  });

  it('says what could not be written and writes the rest', async () => {
    const io = memoryIo({ 'set/road.abc': book });
    const write = async (path: string, bytes: Uint8Array | string): Promise<void> => {
      if (path.endsWith('low-road.mid')) throw new Error('the disk is full; nothing was written.');
      await io.write(path, bytes);
    };
    const code = await runCommandLine(
      ['handout', 'set/road.abc', '--out', 'out', '--format', 'midi,text'],
      { ...io, write },
      [handout],
      '1',
    );
    expect(code).toBe(2);
    expect(io.said.err).toBe('set/road.abc: out/low-road.mid could not be written: the disk is full; nothing was written.\n');
    expect([...io.files.keys()].filter((name) => name.startsWith('out/'))).toEqual(['out/low-road-2.mid', 'out/road.txt']);
  });

  it('writes tracks of bars at steps of tempo, and says what a tune has not', async () => {
    const track = (more: readonly string[]) => call(['set/road.abc', '--out', 'out', '--tune', '1', '--format', 'wav', ...more]);
    expect(await track(['--bars', '1', '--steps', '80,100', '--times', '2'])).toMatchObject({ code: 0, written: ['out/low-road.wav'] });
    expect((await track(['--bars', '4'])).err).toBe('set/road.abc: "Low Road": it has bars 1 to 1, not 4-4.\n');
    expect((await track(['--bars', 'x'])).err).toContain('"x" are no bars; write 3 or 3-6.');
    expect((await track(['--part', 'B'])).err).toContain('no part "B": it has no parts (P:).');
    expect((await track(['--steps', '80,900'])).err).toContain('"900" is no tempo for it; from 20 to 200 beats a minute can be played.');
  });

  it('publishes only what is complete, and says what is missing', async () => {
    const bare = await call(['set/road.abc', '--out', 'out', '--format', 'text', '--publish']);
    expect(bare).toMatchObject({ code: 2, written: [] });
    expect(bare.err).toContain('"Low Road": no composer and no source: add C: or S:.');
    expect(bare.err).toContain('"Low Road": no rights:');
    expect(bare.err).toContain('2 of 2 notes have no finger and string in the text');
    const whole = 'X:1\nT:Low Road\nC:traditional\nM:4/4\nL:1/4\nK:G clef=bass\n!0!G,2 !1!!sulG!A,2|]\n';
    const io = memoryIo({ 'whole.abc': whole });
    expect(await runCommandLine(['handout', 'whole.abc', '--out', 'out', '--format', 'text', '--publish'], io, [handout], '1')).toBe(0);
    expect(io.said.err).toBe('');
  });
});
