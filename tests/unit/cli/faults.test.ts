// What cannot be read, by the built command as a process: a message with the remedy, exit code 2, and the rest goes on.
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tuneOf } from '../../support/check.ts';
import { buildCommand } from '../../support/command.ts';

const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-faults-'));
const command = join(folder, 'bullfiddle.cjs');
const tunes = join(folder, 'tunes');
const good = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G,, B,, D, G,|');
const short = tuneOf('M:4/4 ; L:1/4 ; K:G clef=bass', 'G,, B,, D, G,|A, G,|G,4|');

/** Nothing is forbidden to root, so as root the command is run as nobody. */
const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
function run(...args: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], { cwd: tunes, encoding: 'utf8', ...nobody });
  return { status, stdout, stderr };
}

beforeAll(async () => {
  await buildCommand(command);
  mkdirSync(join(tunes, 'locked'), { recursive: true });
  writeFileSync(join(tunes, 'a.abc'), short);
  writeFileSync(join(tunes, 'locked/inside.abc'), good);
  writeFileSync(join(tunes, 'mine.abc'), good);
  writeFileSync(join(tunes, 'old.abc'), `${good}% caf\u00e9\n`, 'latin1');
  writeFileSync(join(tunes, 'z.abc'), short);
  symlinkSync(join(folder, 'nowhere.abc'), join(tunes, 'link.abc'));
  chmodSync(folder, 0o755);
  chmodSync(join(tunes, 'locked'), 0o000);
  chmodSync(join(tunes, 'mine.abc'), 0o000);
}, 60_000);
afterAll(() => {
  chmodSync(join(tunes, 'locked'), 0o755);
  rmSync(folder, { recursive: true, force: true });
});

describe('a folder with things that cannot be read', () => {
  it.each(['check', 'notes', 'finger'])('%s names each, does the rest, and ends with 2', (name) => {
    const { status, stdout, stderr } = run(name, '.');
    expect(status).toBe(2);
    expect(stderr).toContain('locked: not permitted; look at the rights of the file and its folder.');
    expect(stderr).toContain('mine.abc: not permitted; look at the rights of the file and its folder.');
    expect(stderr).toContain('link.abc: no such file or folder; look at the name.');
    expect(stderr).toMatch(/old\.abc: line \d+ is not UTF-8, so the file is read as Latin-1; save it as UTF-8\./);
    expect(stderr).not.toMatch(/fault of its own|\n +at /);
    for (const file of ['a.abc', 'z.abc']) expect(stdout).toContain(file);
  });
  it('an unreadable file beats findings in the exit code, and findings beat none', () => {
    expect(run('check', 'a.abc').status).toBe(1);
    expect(run('check', 'a.abc', 'mine.abc').status).toBe(2);
    expect(run('check', 'old.abc').status).toBe(0);
  });
  it('a folder that is locked itself is named', () => {
    expect(run('check', 'locked')).toMatchObject({ status: 2, stderr: expect.stringContaining('locked: not permitted') });
  });
});

describe('a path that is no tune file', () => {
  it.each([
    ['gone.abc', 'gone.abc: no such file or folder; look at the name.'],
    ['a.abc/b.abc', 'a.abc/b.abc: a part of this path is a file, not a folder.'],
    ['x'.repeat(300), 'the name is too long.'],
  ])('%s', (path, words) => {
    expect(run('check', path)).toMatchObject({ status: 2, stderr: expect.stringContaining(words) });
  });
  it('and a settings file that is locked is named, while the tunes are checked', () => {
    const settings = join(tunes, 'bullfiddle.json');
    writeFileSync(settings, '{}');
    chmodSync(settings, 0o000);
    const { status, stderr } = run('check', 'a.abc');
    rmSync(settings);
    expect(status).toBe(1);
    expect(stderr).toContain('bullfiddle.json: not permitted');
  });
});

describe('a revision', () => {
  const env = { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' };
  const compare = (path: string, revision: string) =>
    spawnSync(process.execPath, [command, 'compare', revision, '--', 'air.abc'], { cwd: path, encoding: 'utf8', env });
  it('that is not there, and a folder that is in no repository, are told', () => {
    const repository = join(folder, 'repository');
    mkdirSync(repository);
    writeFileSync(join(repository, 'air.abc'), good);
    expect(compare(repository, 'main')).toMatchObject({ status: 2, stderr: expect.stringContaining('there is no revision "main" here') });
    execFileSync('git', ['init', '-q'], { cwd: repository, env });
    expect(compare(repository, 'v1')).toMatchObject({ status: 2, stderr: expect.stringContaining('there is no revision "v1" here') });
    expect(compare(repository, '--output=x')).toMatchObject({ status: 2, stdout: '' });
  });
});

it('a reader that closes the pipe at once ends any command quietly', () => {
  const line = `"${process.execPath}" "${command}" notes a.abc z.abc old.abc | head -c 1; exit 0`;
  const { stderr } = spawnSync('sh', ['-c', line], { cwd: tunes, encoding: 'utf8' });
  expect(stderr.replace(/^old\.abc: .*\n/, '')).toBe('');
});
