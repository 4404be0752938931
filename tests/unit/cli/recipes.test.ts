// The recipes of `server/docs/git.md`, each taken from that page and run in a real repository.
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { tuneOf } from '../../support/check.ts';
import { buildCommand } from '../../support/command.ts';

const root = join(import.meta.dirname, '../../..');
const page = readFileSync(join(root, 'server/docs/git.md'), 'utf8');

/** The fenced blocks under a heading, in order. */
function recipes(heading: string): readonly string[] {
  const from = page.indexOf(`## ${heading}\n`);
  expect(from).toBeGreaterThanOrEqual(0);
  const section = page.slice(from).split(/\n## /)[0]!;
  return [...section.matchAll(/^```\w*\n([\s\S]*?)^```$/gm)].map((block) => block[1]!);
}

const fields = 'M:4/4 ; L:1/4 ; Q:1/4=80 ; K:G clef=bass';
const good = tuneOf(fields, 'G,, B,, D, G,|A, G, D, B,,|');
/** One hand cannot hold these two notes: a tenth on two neighbouring strings. */
const unplayable = tuneOf(fields, 'G,, B,, D, G,|[!sulA!C,!sulD!^F] G, D, B,,|');

const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-recipes-'));
const bin = join(folder, 'bin');
const repository = join(folder, 'repository');
/** Beside the checkout's media, where the command finds its fonts. */
const command = join(root, '.cache/tests', `recipes-${process.pid}.cjs`);
const env = {
  ...process.env,
  PATH: `${bin}${delimiter}${process.env.PATH}`,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'A',
  GIT_AUTHOR_EMAIL: 'a@example.org',
  GIT_COMMITTER_NAME: 'A',
  GIT_COMMITTER_EMAIL: 'a@example.org',
};
const git = (...args: readonly string[]): string => execFileSync('git', args, { cwd: repository, encoding: 'utf8', stdio: 'pipe', env });
const shell = (line: string) => {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', line], { cwd: repository, encoding: 'utf8', env });
  return { status, stdout, stderr };
};
const write = (text: string | Uint8Array): void => writeFileSync(join(repository, 'tunes/air.abc'), text);

beforeAll(async () => {
  mkdirSync(bin);
  await buildCommand(command);
  writeFileSync(join(bin, 'bullfiddle'), `#!/bin/sh\nexec "${process.execPath}" "${command}" "$@"\n`);
  chmodSync(join(bin, 'bullfiddle'), 0o755);
}, 60_000);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  rmSync(command, { force: true });
});
beforeEach(() => {
  rmSync(repository, { recursive: true, force: true });
  mkdirSync(join(repository, 'tunes'), { recursive: true });
  write(good);
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-qm', 'An air');
});

describe('before a commit', () => {
  const commit = (text: string | Uint8Array) => {
    write(text);
    git('add', '.');
    const { status, stdout, stderr } = spawnSync('git', ['commit', '-m', 'A change'], { cwd: repository, encoding: 'utf8', env });
    return { status, said: stdout + stderr, commits: git('log', '--oneline').trim().split('\n').length };
  };
  beforeEach(() => {
    const hook = join(repository, '.git/hooks/pre-commit');
    writeFileSync(hook, recipes('Before a commit')[0]!);
    chmodSync(hook, 0o755);
  });
  it('a playable change goes through', () => {
    expect(commit(good.replace('A, G,', 'A,2'))).toMatchObject({ status: 0, commits: 2 });
  });
  it('an unplayable bar is refused, with its place', () => {
    const { status, said, commits } = commit(unplayable);
    expect({ status: status !== 0, commits }).toEqual({ status: true, commits: 1 });
    expect(said).toMatch(/^tunes\/air\.abc:7:\d+: error: .*\[reach\.too-wide\]/m);
  });
  it('what is to be committed counts, not what lies in the folder', () => {
    write(unplayable);
    git('add', '.');
    write(good);
    expect(spawnSync('git', ['commit', '-qm', 'A change'], { cwd: repository, env }).status).not.toBe(0);
    git('add', '.');
    write(unplayable);
    expect(spawnSync('git', ['commit', '-qm', 'A change', '--allow-empty'], { cwd: repository, env }).status).toBe(0);
  });
  it('a file that is no text is refused', () => {
    const { status, said } = commit(Uint8Array.from([88, 58, 49, 0, 10]));
    expect(status).not.toBe(0);
    expect(said).toContain('this is not a text file');
  });
});

describe('in continuous integration', () => {
  const steps = [...recipes('In continuous integration')[0]!.matchAll(/^ +- run: (.+)$/gm)].map((step) => step[1]!);
  it('the steps go through on good tunes, and leave handouts where they are picked up', () => {
    expect(steps).toHaveLength(2);
    expect(steps.map(shell)).toMatchObject([{ status: 0 }, { status: 0 }]);
    const [, path] = /^ +path: (.+)$/m.exec(recipes('In continuous integration')[0]!)!;
    expect(readdirSync(join(repository, path!)).sort()).toEqual(['air.html', 'air.pdf']);
  });
  it('the first step fails on an unplayable bar and prints an annotation at its line', () => {
    write(unplayable);
    const { status, stdout } = shell(steps[0]!);
    expect(status).toBe(1);
    expect(stdout).toMatch(/^::error file=tunes\/air\.abc,line=7,.*title=reach\.too-wide::/m);
  });
});

describe('showing and merging', () => {
  beforeEach(() => {
    writeFileSync(join(repository, '.gitattributes'), recipes('Changes by part and bar')[0]!);
    for (const line of [recipes('Changes by part and bar')[1]!, recipes('Merging by bar')[0]!])
      expect(shell(line)).toMatchObject({ status: 0, stderr: '' });
  });
  it('git diff shows the bar that changed, by part and number', () => {
    write(good.replace('A, G,', 'A,2'));
    const changed = git('diff')
      .split('\n')
      .filter((line) => /^[-+][^-+]/.test(line));
    expect(changed).toEqual(['-A 2  A, G, D, B,,|', '+A 2  A,2 D, B,,|']);
  });
  it('git merge joins edits of two bars on one line', () => {
    git('add', '.');
    git('commit', '-qm', 'How to show and merge tunes');
    git('checkout', '-qb', 'side');
    write(good.replace('A, G,', 'A,2'));
    git('commit', '-qam', 'One bar');
    git('checkout', '-q', 'main');
    write(good.replace('G,, B,,', 'G,,2'));
    git('commit', '-qam', 'Another bar');
    git('merge', '-q', '--no-edit', 'side');
    expect(readFileSync(join(repository, 'tunes/air.abc'), 'utf8')).toBe(good.replace('A, G,', 'A,2').replace('G,, B,,', 'G,,2'));
  });
  it('compare tells of a file that is gone, in a folder or by its name', () => {
    rmSync(join(repository, 'tunes/air.abc'));
    const told = { status: 1, stdout: 'tunes/air.abc: Test: tune removed\n', stderr: '' };
    for (const path of ['.', 'tunes/air.abc']) expect(shell(`bullfiddle compare HEAD -- ${path}`)).toEqual(told);
    expect(shell(`bullfiddle compare HEAD -- ${join(repository, 'tunes')}`).stdout).toContain('tune removed');
    expect(shell('bullfiddle compare HEAD -- gone.abc')).toMatchObject({ status: 2, stderr: expect.stringContaining('no such file') });
  });
  it('compare tells what changed, in words and as a page', () => {
    write(good.replace('A, G,', 'A,2'));
    const [words, drawn] = [...page.matchAll(/`(bullfiddle compare [^`]+)`/g)].map((line) => line[1]!);
    expect(shell(words!)).toMatchObject({ status: 1, stdout: expect.stringContaining('bar A 2: notes A D B, were A G D B') });
    expect(shell(drawn!).status).toBe(1);
    expect(existsSync(join(repository, 'changes.html'))).toBe(true);
    expect(readFileSync(join(repository, 'changes.html'), 'utf8').includes('notes A D B, were A G D B')).toBe(true);
  });
});
