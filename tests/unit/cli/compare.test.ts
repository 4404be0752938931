// `compare`: two files, and a file against a git revision.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { commands } from '../../../server/src/cli/commands/index.ts';
import { processIo } from '../../../server/src/cli/io.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { memoryIo } from '../../support/memory-io.ts';

const tune = (body: string, more = '') => `X:1\nT:Air\nM:4/4\nL:1/4\nQ:1/4=100\nK:A clef=bass\n${more}${body}\n`;
const base = tune('P:A\nA,B,CD|(A,B,)C2|\nP:B\nE,F,G,A,|A,4|]');

async function compare(old: string, next: string, format = 'text') {
  const io = memoryIo({ 'old.abc': old, 'new.abc': next });
  const code = await runCommandLine(['compare', 'old.abc', 'new.abc', '--format', format], io, commands, '0');
  return { code, ...io.said };
}

describe('in words', () => {
  it('says nothing of what is the same', async () => expect(await compare(base, base)).toEqual({ code: 0, out: '', err: '' }));
  it.each([
    ['CD|', '!sulD!CD|', /bar A 1: .*C# moves to the D string/],
    ['(A,B,)', 'A,B,', /bar A 2: .*hammer-on removed at B/],
    ['E,F,G,A,|', 'E,F,G,B,|', /bar B 1: notes E F# G# B, were E F# G# A/],
    ['A,4|]', 'A,4|A,4|]', /bar B 3: bar added/],
    ['A,4|]', '!>!A,4|]', /bar B 2: accent on A added/],
    ['E,F,', '"E"E,F,', /bar B 1: chord E, was none/],
    ['K:A', 'K:D', /key D, was A/],
    ['=100', '=90', /tempo 1\/4=90, was 1\/4=100/],
    ['T:Air', 'C:me\nT:Air', /only the text’s layout or words/],
    ['T:Air', 'T:Other', /Other: tune added\n.*Air: tune removed/],
  ])('%s to %s', async (from, to, words) => {
    const { code, out } = await compare(base, base.replace(from, to));
    expect(code).toBe(1);
    expect(out).toMatch(words);
  });
  it('as JSON, with places in both files', async () => {
    const next = base.replace('G,A,|', 'G,B,|');
    const { out } = await compare(base, next, 'json');
    const told = JSON.parse(out);
    expect(told).toMatchObject({ file: 'new.abc', number: 1, title: 'Air', change: 'changed' });
    const change = told.changes.find((c: { kind: string }) => c.kind === 'notes');
    expect(next.slice(change.new.from, change.new.to)).toContain('E,F,G,B,');
    expect(base.slice(change.old.from, change.old.to)).toContain('E,F,G,A,');
  });
  it('says what it takes, and what cannot be read', async () => {
    const io = memoryIo({ 'old.abc': base });
    expect(await runCommandLine(['compare', 'old.abc'], io, commands, '0')).toBe(2);
    expect(await runCommandLine(['compare', 'old.abc', 'gone.abc'], io, commands, '0')).toBe(2);
    expect(io.said.err).toContain('gone.abc: no such file');
  });
});

describe('since a revision', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-'));
  const git = (...args: string[]) => execFileSync('git', ['-c', 'user.name=t', '-c', 'user.email=t@example.org', ...args], { cwd: folder });
  const compareWith = async (revision: string) => {
    const io = memoryIo();
    const files = processIo('');
    const local = { ...io, cwd: folder, read: (path: string) => files.read(join(folder, path)), list: async (path: string) => [path] };
    return { code: await runCommandLine(['compare', revision, '--', 'air.abc'], local, commands, '0'), ...io.said };
  };
  afterAll(() => rmSync(folder, { recursive: true }));
  it('compares the file with the commit, and names a revision that is not there', async () => {
    git('init', '-q');
    writeFileSync(join(folder, 'air.abc'), base);
    git('add', '.');
    git('commit', '-q', '-m', 'x');
    expect(await compareWith('HEAD')).toEqual({ code: 0, out: '', err: '' });
    writeFileSync(join(folder, 'air.abc'), base.replace('A,4|]', 'C4|]'));
    expect((await compareWith('HEAD')).out).toContain('bar B 2: notes C#, were A');
    const missing = await compareWith('no-such-branch');
    expect(missing.code).toBe(2);
    expect(missing.err).toContain('there is no revision "no-such-branch" here');
  });
});
