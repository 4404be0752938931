// The commands that make and change bass parts: finger, registers, arrange, ink, transpose.
import { describe, expect, it } from 'vitest';
import { commands } from '../../../server/src/cli/commands/index.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { memoryIo } from '../../support/memory-io.ts';

const melody = 'X:1\nT:Reel\nI:bullfiddle tune=reel version=source\nM:2/2\nL:1/8\nK:D\nP:A\nD2F2 A2F2|G2E2 D4|\nP:B\nf2a2 b2a2|g2e2 d4|\n';
const bass = 'X:1\nT:Low\nL:1/4\nK:G clef=bass\nG,A,B,!4!!sulG!D|\n';

async function run(args: string, files: Readonly<Record<string, string>>) {
  const io = memoryIo(files);
  const code = await runCommandLine(args.split(' '), io, commands, '0');
  return { code, ...io.said };
}
const lines = (out: string) =>
  out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));

describe('finger', () => {
  it('gives a line a bass voice, with offsets into the file', async () => {
    const file = `% a book\n\n${melody}\n${bass.replace('X:1', 'X:2')}`;
    const { code, out } = await run('finger a.abc', { 'a.abc': file });
    expect(code).toBe(0);
    const [line, ...rest] = lines(out);
    expect(rest).toEqual([]);
    expect(Object.keys(line)).toEqual('file number title voice playable exact cost topTempo tempo shifts travelMm notes'.split(' '));
    expect(line).toMatchObject({ file: 'a.abc', number: 2, title: 'Low', playable: true, exact: true, tempo: null });
    expect(line.notes.map((n: { from: number; to: number }) => file.slice(n.from, n.to))).toEqual(['G,', 'A,', 'B,', 'D']);
    expect(line.notes[3]).toMatchObject({
      onset: '3/4',
      sounding: [50],
      places: [{ string: 'G', stop: 7, finger: '4' }],
      pinned: ['finger', 'string'],
    });
  });
  it('gives windows with what is needed and there where nothing fits', async () => {
    const [line] = lines((await run('finger a.abc', { 'a.abc': 'X:1\nL:1/4\nK:C clef=bass\n(!sulG!^G,!sulG!B,)|\n' })).out);
    expect(line.playable).toBe(false);
    expect(line.windows).toMatchObject([{ code: 'reach.too-wide', available: 126, unit: 'mm', slowdown: null }]);
  });
  it('gives alternatives, cheapest first, each with what it costs more', async () => {
    const [line] = lines((await run('finger a.abc --alternatives 3', { 'a.abc': bass })).out);
    for (const note of line.notes) {
      const regrets = note.alternatives.map((a: { regret: number }) => a.regret);
      expect(note.alternatives.length).toBeLessThanOrEqual(3);
      expect(regrets).toEqual([...regrets].sort((a, b) => a - b));
    }
    expect(line.notes[1].alternatives.length).toBeGreaterThan(0);
  });
  it('judges for a player of bullfiddle.json, and says who is known', async () => {
    const files = { 'a.abc': bass, '/book/bullfiddle.json': '{"players":{"T.B.":{"mensur":975,"hand":"small"}}}' };
    const mm = (out: string) => lines(out)[0].notes[3].places[0].mm;
    expect(mm((await run('finger a.abc --for T.B.', files)).out)).toBeLessThan(mm((await run('finger a.abc', files)).out));
    const wrong = await run('finger a.abc --for X.Y.', files);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('known are T.B.');
  });
  it('says once what is wrong in bullfiddle.json and goes on', async () => {
    const { code, err } = await run('finger a.abc', { 'a.abc': bass, '/book/bullfiddle.json': '{\n"player":{"mensur":90}}' });
    expect(code).toBe(0);
    expect(err).toMatch(/bullfiddle.json:2: .*800/);
  });
});

describe('arrange', () => {
  it('prints a version, numbered on', async () => {
    const { code, out } = await run('arrange a.abc --version low --pins none', { 'a.abc': melody });
    expect(code).toBe(0);
    expect(out).toMatch(
      /^X:2\nT:Reel \(low\)\nI:bullfiddle tune=reel version=low from=A:.*,B:.* made=A:.*\nM:2\/2\nL:1\/8\nK:D clef=bass\nP:A\nD,2F,2 /,
    );
  });
  it('adds a part that the melody has got since', async () => {
    const low = (await run('arrange a.abc --version low', { 'a.abc': melody })).out;
    const { code, out, err } = await run('arrange a.abc --version low --update', { 'a.abc': `${melody}P:C\nA2F2 D4|D8|\n\n${low}` });
    expect(code).toBe(0);
    expect(out.split('X:2')[1]).toMatch(/\nP:C\n/);
    expect(err).toContain('Part C is new in the source and has been added.');
  });
  it('prints a bass line from the chords, and says where it had to suggest them', async () => {
    const chords = melody.replace('D2F2', '"D"D2F2').replace('f2a2', '"G"f2a2');
    const { code, out, err } = await run('arrange a.abc --backing --pins none', { 'a.abc': chords });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toBe(
      'X:2\nT:Reel (backing)\nI:bullfiddle tune=reel version=backing\nM:2/2\nL:1/8\nK:D clef=bass\nP:A\n"D"D,4 A,,4|D,4 A,,4|\nP:B\n"G"G,,4 D,4|G,,4 D,4|\n',
    );
    const bare = await run('arrange a.abc --backing --key G', { 'a.abc': melody });
    expect(bare.out).toMatch(/^%.*suggestions/m);
    expect(bare.out).toContain('"^?G"');
    expect(bare.err).toContain('suggestions');
    expect((await run('arrange a.abc --backing --version low', { 'a.abc': melody })).code).toBe(2);
  });
  it('says how a melody without a name becomes the source of its versions', async () => {
    const plain = melody.replace(/I:bullfiddle.*\n/, '');
    const { err } = await run('arrange a.abc --version low', { 'a.abc': plain });
    expect(err).toContain('put "I:bullfiddle tune=reel version=source" before its K: line');
    expect((await run('arrange a.abc --version low', { 'a.abc': melody })).err).toBe('');
  });
  it('moves to a key and to a tempo', async () => {
    const { out } = await run('arrange a.abc --version high --key G --tempo 1/2=80', { 'a.abc': melody });
    expect(out).toContain('K:G clef=bass');
    expect(out).toContain('Q:1/2=80');
  });
  it('reports each note as JSON', async () => {
    const [report] = lines((await run('arrange a.abc --version low --report', { 'a.abc': melody })).out);
    expect(report.notes).toHaveLength(14);
    expect(melody.slice(report.notes[0].from, report.notes[0].to)).toBe('D2');
  });
  it('updates in place and ends with 1 on a conflict', async () => {
    const low = (await run('arrange a.abc --version low', { 'a.abc': melody })).out;
    const book = `${melody}\n${low}`;
    expect((await run('arrange a.abc --version low --update', { 'a.abc': book })).out).toBe(book);
    const stale = book.replace('D2F2', 'D2G2');
    const updated = await run('arrange a.abc --version low --update', { 'a.abc': stale });
    expect(updated.code).toBe(0);
    expect(updated.out).not.toBe(stale);
    expect(updated.err).toContain('Part A has been made again');
    const conflict = await run('arrange a.abc --version low --update', {
      'a.abc': stale.replace('P:A\n', 'P:A\n').replace(/(P:A\n)(?=!)/, '$1% mine\n'),
    });
    expect(conflict.code).toBe(1);
    expect(conflict.out).toContain('% mine');
  });
  it.each([
    ['arrange a.abc', '--version is missing'],
    ['arrange --version low', 'name one tune file'],
    ['arrange a.abc --version low --tempo fast', '--tempo cannot be "fast"'],
    ['arrange a.abc --version low --key H', '--key cannot be "H"'],
    ['arrange a.abc --version low --tune 9', 'no melody "9"'],
  ])('%s: says what is wrong', async (args, message) => {
    const { code, err } = await run(args, { 'a.abc': melody });
    expect(code).toBe(2);
    expect(err).toContain(message);
  });
});

describe('ink', () => {
  it('writes pins; checked after, nothing is missing', async () => {
    const { out } = await run('ink a.abc --density all --as lines', { 'a.abc': bass });
    expect(out).toContain('\ns: ');
    expect((await run('ink a.abc --check', { 'a.abc': out })).code).toBe(0);
    const loose = await run('ink a.abc --check', { 'a.abc': bass });
    expect(loose.code).toBe(1);
    expect(loose.out).toContain('a.abc:5: Low: 3 notes are not fully pinned');
  });
});

describe('transpose', () => {
  it('prints the text and tells of pins on stderr', async () => {
    const { code, out, err } = await run('transpose a.abc --by -2', { 'a.abc': bass });
    expect(code).toBe(0);
    expect(out).toContain('K:F clef=bass\nF,G,A,!4!!sulG!C|');
    expect(err).toBe('');
    const fourth = await run('transpose a.abc --by -5', { 'a.abc': bass });
    expect(fourth.out).toContain('!4!!sulD!A,');
    expect(fourth.err).toContain('a.abc:5: G string becomes D string');
  });
});

describe('registers', () => {
  it('ranks twelve keys for both versions, cheapest first', async () => {
    const ranked = lines((await run('registers a.abc', { 'a.abc': melody })).out);
    expect(ranked.map((r) => r.version)).toEqual(['low', 'high']);
    for (const { keys } of ranked) {
      const costs = keys.map((k: { cost: number | null }) => k.cost ?? Number.POSITIVE_INFINITY);
      expect(costs).toEqual([...costs].sort((a, b) => a - b));
      expect(new Set(keys.map((k: { shift: number }) => k.shift)).size).toBe(keys.length);
    }
    expect(ranked[0].keys[0]).toHaveProperty('open');
  });
});
