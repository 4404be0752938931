// `bullfiddle check`: what it prints in each format, when it fails, for whom it judges, and what it says of files it cannot read.
import { describe, expect, it } from 'vitest';
import { check } from '../../../server/src/cli/commands/check.ts';
import { findingsGithub } from '../../../server/src/cli/output/findings-github.ts';
import type { Reported } from '../../../server/src/cli/output/report.ts';
import { tuneOf } from '../../support/check.ts';
import { memoryIo } from '../../support/memory-io.ts';

const good = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G,, B,, D, G,|');
const short = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G,, B,, D, G,|A, G,|G,4|');
const warned = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G,2-A,2|');
const informed = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G, !2!B, A, !3!B,|');

async function call(args: readonly string[], files: Record<string, string>) {
  const io = memoryIo(files);
  const code = await check.run(args, io);
  return { code, ...io.said };
}

it('shows the line with carets under the place, and sums up on standard error', async () => {
  expect(await call(['a.abc'], { 'a.abc': short })).toEqual({
    code: 1,
    out: 'a.abc:6:15: error: Bar 2 holds 2/4, 2/4 too little: 4/4 asks for 4/4. Lengthen a note or add a rest. [bar.too-short]\n  G,, B,, D, G,|A, G,|G,4|\n                ^^^^^^\n',
    err: '1 error, 0 warnings in 1 of 1 file.\n',
  });
});

it('gives a line of JSON a finding, by the published contract', async () => {
  const { out } = await call(['a.abc', '--format', 'json'], { 'a.abc': short });
  const from = short.indexOf('A, G,|G,4');
  expect(JSON.parse(out)).toEqual({
    file: 'a.abc',
    code: 'bar.too-short',
    severity: 'error',
    message: 'Bar 2 holds 2/4, 2/4 too little: 4/4 asks for 4/4. Lengthen a note or add a rest.',
    from,
    to: from + 6,
    line: 6,
    column: 15,
    tune: 1,
    bar: 2,
    fix: { title: 'Fill the bar with a rest (z2)', edits: [{ from: from + 5, to: from + 5, insert: 'z2' }] },
  });
});

describe('exit codes', () => {
  it.each([
    [good, [], 0],
    [short, [], 1],
    [warned, [], 0],
    [warned, ['--fail-on', 'warning'], 1],
    [informed, ['--fail-on', 'warning'], 0],
    [informed, ['--fail-on', 'info'], 1],
    [good, ['--fail-on', 'info'], 0],
  ])('of %j with %j: %i', async (text, args, expected) => expect((await call(['a.abc', ...args], { 'a.abc': text })).code).toBe(expected));

  it('say 2 for a file that cannot be read, though the rest is checked and has errors', async () => {
    const { code, out, err } = await call(['gone.abc', 'a.abc'], { 'a.abc': short });
    expect(code).toBe(2);
    expect(out).toContain('bar.too-short');
    expect(err).toMatch(/^gone\.abc: no such file or folder/);
  });
  it('say 2 for wrong usage', async () => {
    expect((await call([], {})).code).toBe(2);
    expect((await call(['a.abc', '--format', 'xml'], { 'a.abc': good })).code).toBe(2);
  });
});

describe('players', () => {
  const config = JSON.stringify({ players: { AB: { hand: 'small', thumb: 12 }, CD: { hand: 'large', thumb: 5 } } });
  const thumbed = tuneOf('M:4/4 ; L:1/4 ; Q:1/4=60 ; K:G clef=bass', 'G, D, G, D,|!thumb!!sulG!^C z3|');
  const files = { 'a.abc': thumbed, '/book/bullfiddle.json': config };

  it('are judged one by one', async () => {
    expect((await call(['a.abc', '--for', 'AB'], files)).out).toContain('[thumb.too-low]');
    expect(await call(['a.abc', '--for', 'CD'], files)).toMatchObject({ code: 0, out: '' });
  });
  it('that nobody has listed are said, with those who are', async () => {
    const { code, err } = await call(['a.abc', '--for', 'XY'], files);
    expect(code).toBe(2);
    expect(err).toMatch(/no player "XY".*AB, CD/);
  });
  it('make a table: playable or not, tempos, blocking bars', async () => {
    const { code, out } = await call(['a.abc', '--players'], files);
    const [head, ab, cd] = out.split('\n');
    expect(code).toBe(0);
    expect(head).toMatch(/^tune +player +playable +comfortable +limit +blocking bars$/);
    expect(ab).toMatch(/^1 Test +AB +no .* 2$/);
    expect(cd).toMatch(/^1 Test +CD +yes +1\/4 = \d+ +1\/4 = \d+$/);
  });
  it('make lines of JSON', async () => {
    const rows = (await call(['a.abc', '--players', '--format', 'json'], files)).out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(rows.map(({ player, playable, blocking }) => ({ player, playable, blocking }))).toEqual([
      { player: 'AB', playable: false, blocking: [2] },
      { player: 'CD', playable: true, blocking: [] },
    ]);
  });
  it('make no table where none are listed, nor in a format that has none', async () => {
    expect(await call(['a.abc', '--players'], { 'a.abc': good })).toMatchObject({ code: 2, out: '' });
    expect((await call(['a.abc', '--players', '--format', 'sarif'], files)).code).toBe(2);
  });
});

it('escapes what would end an annotation line early', () => {
  const found: Reported = {
    file: 'a,b:c%.abc',
    code: 'bar.too-short',
    severity: 'info',
    message: '50 % here:\r\nand, there',
    from: 0,
    to: 1,
    line: 1,
    column: 1,
    endLine: 1,
    endColumn: 2,
    tune: 1,
    bar: 1,
  };
  expect(findingsGithub([found])).toBe(
    '::notice file=a%2Cb%3Ac%25.abc,line=1,endLine=1,col=1,endColumn=2,title=bar.too-short::50 %25 here:%0D%0Aand, there\n',
  );
});
