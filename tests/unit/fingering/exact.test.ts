// The search finds the least cost of all ways there are, best and runner-up, with and without repeats.
import { expect, it } from 'vitest';
import { makeTables } from '../../../server/src/fingering/index.ts';
import type { Task } from '../../../server/src/fingering/types.ts';
import { againstBruteForce } from '../../support/against-brute-force.ts';
import { type Random, randomOf, randomTask, withRepeat } from '../../support/random-task.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
/** Passages with more ways than this are left to the long run. */
const tries = 100_000;

/** Compares `count` passages; those with too many ways to try must be few. */
function compare(count: number, taskOf: () => Task): { readonly playable: number; readonly unplayable: number } {
  const sums = { playable: 0, unplayable: 0, untried: 0 };
  for (let i = 0; i < count; i++) {
    const task = taskOf();
    const result = rechecked(task, tables);
    const verdict = againstBruteForce(task, result, tries);
    expect(verdict.kind === 'apart' ? verdict.why : null, `passage ${i}`).toBeNull();
    expect(result.kind === 'unplayable' || result.exact, `passage ${i}`).toBe(true);
    if (verdict.kind === 'untried') sums.untried++;
    else sums[result.kind === 'fingered' ? 'playable' : 'unplayable']++;
  }
  expect(sums.untried).toBeLessThan(count / 5);
  return sums;
}

it.each<[string, number, (random: Random) => Task]>([
  ['random passages of up to eight notes', 1, (random) => randomTask(random, 8)],
  ['repeats and endings, one written place a note', 2, (random) => withRepeat(random, randomTask(random, 8))],
  ['repeats that may go by on open strings alone', 4, (random) => withRepeat(random, randomTask(random, 3))],
])('equals trying every way on %s', (_, seed, make) => {
  const random = randomOf(seed);
  const { playable, unplayable } = compare(60, () => make(random));
  expect(playable).toBeGreaterThan(15);
  expect(unplayable).toBeGreaterThan(3);
});
