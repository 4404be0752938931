// Merging tunes bar by bar, and showing them by bar to git, over random edits and in a real repository.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { unitsOf } from '../../../server/src/cli/bar-units.ts';
import { merge } from '../../../server/src/cli/commands/merge.ts';
import { textconv } from '../../../server/src/cli/commands/textconv.ts';
import { mergeTexts } from '../../../server/src/cli/merge-units.ts';
import { buildCommand } from '../../support/command.ts';
import { memoryIo } from '../../support/memory-io.ts';
import { demoBooks, faultOfMerge } from '../../support/merging.ts';
import { seeded } from '../../support/random.ts';

const reel = 'X:1\nT:Reel\nM:2/2\nL:1/8\nK:D clef=bass\nP:A\nD,2F,2 A,2F,2|G,2E,2 D,4|]\nP:B\n|:F,2A,2 B,2A,2|1 G,2E,2 D,4:|2 D,8|]\n';

it('units joined are the file, whatever its line ends', () => {
  for (const text of [...demoBooks, reel.replaceAll('\n', '\r\n'), '% only a remark', '', '\uFEFFX:1\nK:C\nC|']) {
    expect(
      unitsOf(text)
        .map((unit) => unit.text)
        .join(''),
    ).toBe(text);
  }
});

describe('merging', () => {
  it('takes random edits in different bars from both sides', () => {
    const random = seeded(7);
    for (let i = 0; i < 40; i++) expect(faultOfMerge(random)).toBe(null);
  });
  it('makes a conflict of two edits in one bar, marks that bar alone, and loses nothing', () => {
    const [ours, theirs] = [reel.replace('G,2E,2 D,4|]', 'G,4 D,4|]'), reel.replace('G,2E,2 D,4|]', 'G,2E,2 F,4|]')];
    expect(mergeTexts(reel, ours, theirs)).toEqual({
      conflicts: 1,
      text: reel.replace('G,2E,2 D,4|]\n', '\n<<<<<<< ours\nG,4 D,4|]\n=======\nG,2E,2 F,4|]\n>>>>>>> theirs\n'),
    });
  });
  it('takes an edit that both sides made once', () => {
    const both = reel.replace('B,2A,2', 'B,4');
    expect(mergeTexts(reel, both, both)).toEqual({ conflicts: 0, text: both });
  });
  it('takes a bar put in on one side and an edit elsewhere on the other', () => {
    const ours = reel.replace('G,2E,2 D,4|]', 'G,8|G,2E,2 D,4|]');
    const theirs = reel.replace('D,8|]', 'D,4 z4|]').replace('T:Reel', 'T:The Reel');
    expect(mergeTexts(reel, ours, theirs)).toEqual({
      conflicts: 0,
      text: ours.replace('D,8|]', 'D,4 z4|]').replace('T:Reel', 'T:The Reel'),
    });
  });
  it('takes tunes that each side added at another place', () => {
    const tune = (n: number): string => `X:${n}\nT:${n}\nK:C\nC${n}|\n\n`;
    const base = tune(2) + tune(4);
    expect(mergeTexts(base, tune(1) + base, base + tune(5))).toEqual({ conflicts: 0, text: tune(1) + base + tune(5) });
  });
  it('says what is wrong with files it cannot read', async () => {
    const io = memoryIo({ a: reel, b: reel });
    expect(await merge.run(['a', 'b', 'c'], io)).toBe(2);
    expect(io.said.err).toMatch(/no such file/);
    expect(await merge.run(['a', 'b'], io)).toBe(2);
  });
});

it('shows a line a bar, by part and number', async () => {
  const io = memoryIo({ 'a.abc': reel });
  expect(await textconv.run(['a.abc'], io)).toBe(0);
  expect(io.said.out.split('\n').slice(5)).toEqual([
    'P:A',
    'A 1  D,2F,2 A,2F,2|',
    'A 2  G,2E,2 D,4|]',
    'P:B',
    '|:',
    'B 1  F,2A,2 B,2A,2|1',
    'B 2 (ending 1)  G,2E,2 D,4:|2',
    'B 2 (ending 2)  D,8|]',
    '',
  ]);
});

describe('in a repository', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-git-'));
  const git = (...args: readonly string[]): string =>
    execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false', ...args], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' },
    });
  const write = (text: string): void => writeFileSync(join(folder, 'reel.abc'), text);
  const commit = (text: string, message: string): void => {
    write(text);
    git('commit', '-qam', message);
  };

  beforeAll(async () => {
    const bundle = join(folder, '.git-tools.cjs');
    await buildCommand(bundle);
    git('init', '-q', '-b', 'main');
    git('config', 'diff.bullfiddle.textconv', `"${process.execPath}" "${bundle}" textconv`);
    git('config', 'merge.bullfiddle.driver', `"${process.execPath}" "${bundle}" merge %O %A %B`);
    writeFileSync(join(folder, '.gitattributes'), '*.abc diff=bullfiddle merge=bullfiddle\n');
    write(reel);
    git('add', 'reel.abc', '.gitattributes');
    git('commit', '-qm', 'A reel');
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('git diff shows the bar that changed, and only that', () => {
    write(reel.replace('G,2E,2 D,4|]', 'G,4 D,4|]'));
    const changed = git('diff')
      .split('\n')
      .filter((line) => /^[-+][^-+]/.test(line));
    git('checkout', '-q', 'reel.abc');
    expect(changed).toEqual(['-A 2  G,2E,2 D,4|]', '+A 2  G,4 D,4|]']);
  });
  it('git merge joins edits of two bars on one line', () => {
    git('checkout', '-qb', 'left');
    commit(reel.replace('A,2F,2|', 'A,4|'), 'Hold bar 1');
    git('checkout', '-q', 'main');
    commit(reel.replace('G,2E,2 D,4|]', 'G,4 D,4|]'), 'Hold bar 2');
    git('merge', '-q', '--no-edit', 'left');
    expect(readFileSync(join(folder, 'reel.abc'), 'utf8')).toBe(reel.replace('A,2F,2|', 'A,4|').replace('G,2E,2 D,4|]', 'G,4 D,4|]'));
  });
  it('git merge leaves a conflict in the bar that both sides changed', () => {
    const start = readFileSync(join(folder, 'reel.abc'), 'utf8');
    git('checkout', '-qb', 'right');
    commit(start.replace('B,2A,2|', 'B,4|'), 'Hold B 1');
    git('checkout', '-q', 'main');
    commit(start.replace('B,2A,2|', 'B,3A,|'), 'Dot B 1');
    expect(() => git('merge', '-q', '--no-edit', 'right')).toThrow();
    const left = readFileSync(join(folder, 'reel.abc'), 'utf8');
    expect(left.match(/<<<<<<<[\s\S]*>>>>>>> theirs/)?.[0]).toBe('<<<<<<< ours\nF,2A,2 B,3A,|1\n=======\nF,2A,2 B,4|1\n>>>>>>> theirs');
  });
});
