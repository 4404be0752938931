// The search lets others in: no piece of it is longer than a few steps of the graph, whatever it is working on.
import { expect, it } from 'vitest';
import { makeTables, startSearch } from '../../../server/src/fingering/index.ts';
import type { Task } from '../../../server/src/fingering/types.ts';
import { evenTask } from '../../support/passages.ts';
import { rechecked } from '../../support/rechecked.ts';

/** A long line that climbs and falls over the board, at `step` microseconds a note. */
const line = (count: number, step: number): Task =>
  evenTask(
    Array.from({ length: count }, (_, i) => 33 + ((i * 7) % 19)),
    step,
  );
const repeated: Task = { ...line(60, 250_000), jumps: [20, 40, 59].map((from) => ({ from, to: from - 12, gap: 250_000 })) };

/** Edges of the largest step there is, and what an elimination does at once. */
const pieceMost = 20_000;

it.each<[string, Task, string]>([
  ['a playable line', line(60, 250_000), 'fingered'],
  ['a line far too quick', line(60, 60_000), 'unplayable'],
  ['repeats', repeated, 'fingered'],
])('%s is worked on in small pieces, with the same answer', (_, task, kind) => {
  const sliced = startSearch(task, makeTables(32e6));
  let [before, largest, pieces] = [0, 0, 0];
  let result = sliced.step(1);
  for (; result.kind === 'running'; result = sliced.step(1)) {
    largest = Math.max(largest, result.done - before);
    before = result.done;
    pieces++;
  }
  expect(largest).toBeLessThanOrEqual(pieceMost);
  expect(pieces).toBeGreaterThan(task.notes.length);
  const whole = rechecked(task, makeTables(32e6));
  expect(result.kind).toBe(kind);
  expect(JSON.stringify(result)).toBe(JSON.stringify(whole));
});
