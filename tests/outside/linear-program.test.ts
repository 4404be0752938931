// The best fingering against an outside solver: small tasks as integer programs, solved by glpsol of the GNU Linear Programming Kit (Debian package glpk-utils).
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { makeTables, search } from '../../server/src/fingering/index.ts';
import type { Task } from '../../server/src/fingering/types.ts';
import { linearProgram } from '../support/linear-program.ts';
import { type Random, randomOf, randomTask, withRepeat } from '../support/random-task.ts';

const here = spawnSync('glpsol', ['--version']).status === 0;
const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-lp-'));
const tables = makeTables(32e6);

/** Optimum of an integer program; null where it has no solution. `s mip ROWS COLUMNS STATUS OBJECTIVE` is glpsol's line for it. */
function optimumOf(program: string): number | null {
  const [path, solution] = [join(folder, 'task.lp'), join(folder, 'task.sol')];
  writeFileSync(path, program);
  execFileSync('glpsol', ['--lp', path, '--write', solution], { stdio: 'pipe' });
  const [, status, objective] = /^s mip \d+ \d+ (\w) (\S+)$/m.exec(readFileSync(solution, 'utf8'))!;
  return status === 'o' ? Number(objective) : null;
}

it.skipIf(!here).each<[string, number, number, (random: Random) => Task]>([
  ['lines', 31, 40, (random) => randomTask(random, 6)],
  ['repeats and endings', 32, 40, (random) => withRepeat(random, randomTask(random, 5))],
])('glpsol finds the same cost for %s, and none where no hand plays them', (_, seed, count, make) => {
  const random = randomOf(seed);
  let [playable, unplayable] = [0, 0];
  for (let i = 0; i < count; i++) {
    const task = make(random);
    const result = search(task, tables);
    expect(optimumOf(linearProgram(task)), JSON.stringify(task.notes)).toBe(result.kind === 'fingered' ? result.cost : null);
    if (result.kind === 'fingered') playable++;
    else unplayable++;
  }
  expect(playable).toBeGreaterThan(4);
  expect(unplayable).toBeGreaterThan(0);
});
