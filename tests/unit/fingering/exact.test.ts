// The search finds the least cost of all ways there are, best and runner-up, with and without repeats.
import { expect, it } from 'vitest';
import { makeTables, search } from '../../../server/src/fingering/index.ts';
import type { Task } from '../../../server/src/fingering/types.ts';
import { everyWay } from '../../support/brute-force.ts';
import { randomOf, randomTask, soundingOf, withRepeat } from '../../support/random-task.ts';

const tables = makeTables(32e6);

function expectExact(task: Task, name: string): 'playable' | 'unplayable' {
  const ways = [...everyWay(task, soundingOf(task))];
  const result = search(task, tables);
  if (ways.length === 0) {
    expect(result.kind, name).toBe('unplayable');
    return 'unplayable';
  }
  if (result.kind !== 'fingered') throw new Error(`${name}: judged unplayable, but ${ways[0]![0]} costs ${ways[0]![1]}`);
  expect(result.exact, name).toBe(true);
  expect(result.cost, name).toBe(ways[0]![1]);
  const runnersUp = task.notes.flatMap((_, i) =>
    result
      .alternatives(i, 99)
      .slice(1, 2)
      .map(({ regret }) => regret),
  );
  const second = ways[1] ? ways[1][1] - ways[0]![1] : Number.POSITIVE_INFINITY;
  expect(Math.min(...runnersUp), name).toBe(second);
  return 'playable';
}

it('equals trying every way on random passages of up to three notes', () => {
  const random = randomOf(1);
  const kinds = Array.from({ length: 16 }, (_, i) => expectExact(randomTask(random, 3), `passage ${i}`));
  expect(kinds.filter((kind) => kind === 'playable').length).toBeGreaterThan(8);
  expect(kinds.filter((kind) => kind === 'unplayable').length).toBeGreaterThan(0);
});

it('equals trying every way with one written place a note under repeats and endings', () => {
  const random = randomOf(2);
  const kinds = Array.from({ length: 8 }, (_, i) => expectExact(withRepeat(random, randomTask(random, 3)), `repeat ${i}`));
  expect(kinds.filter((kind) => kind === 'playable').length).toBeGreaterThan(3);
});
