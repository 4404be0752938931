// What must hold whatever the passage: easing never makes anything worse, pinning the best changes nothing, windows are minimal and fairly blamed.
import { expect, it } from 'vitest';
import { makeTables } from '../../../server/src/fingering/index.ts';
import type { Task, TaskNote } from '../../../server/src/fingering/types.ts';
import { easings, worsened } from '../../support/easings.ts';
import { randomOf, randomTask } from '../../support/random-task.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
const random = randomOf(11);
const tasks = Array.from({ length: 50 }, () => randomTask(random, 8));

const costOf = (task: Task): number => {
  const result = rechecked(task, tables);
  return result.kind === 'fingered' ? result.cost : Number.POSITIVE_INFINITY;
};
const withNotes = (task: Task, change: (note: TaskNote, i: number) => TaskNote): Task => ({ ...task, notes: task.notes.map(change) });

it.each(easings)('%s, no passage costs more, none becomes unplayable or has another window', (_, ease) => {
  for (const task of tasks)
    expect(worsened(task, rechecked(task, tables), rechecked(ease(task, random), tables)), JSON.stringify(task.notes)).toBeNull();
});

it('pinning the best fingering leaves its cost', () => {
  for (const task of tasks) {
    const best = rechecked(task, tables);
    if (best.kind !== 'fingered') continue;
    const pinned = withNotes(task, (note, i) => ({
      ...note,
      pins: note.pins.map((pin, head) => ({
        ...pin,
        finger: best.placings[i]!.places[head]!.finger,
        string: best.placings[i]!.places[head]!.string,
      })),
    }));
    expect(costOf(pinned)).toBe(best.cost);
  }
});

it('every proper part of a window is playable, and so is the window at its least slowdown', () => {
  const part = (task: Task, first: number, last: number): Task => ({
    ...task,
    notes: task.notes.slice(first, last + 1),
    jumps: [],
    breaks: [],
  });
  let seen = 0;
  for (const task of tasks) {
    const result = rechecked(task, tables);
    if (result.kind !== 'unplayable') continue;
    for (const { first, last, slowdown } of result.windows) {
      seen++;
      expect(costOf(part(task, first, last))).toBe(Number.POSITIVE_INFINITY);
      if (last > first) {
        expect(costOf(part(task, first + 1, last))).toBeLessThan(Number.POSITIVE_INFINITY);
        expect(costOf(part(task, first, last - 1))).toBeLessThan(Number.POSITIVE_INFINITY);
      }
      if (slowdown === null) continue;
      const factor = slowdown * 1.001;
      const slower = withNotes(part(task, first, last), (note) => ({
        ...note,
        onset: Math.ceil(note.onset * factor),
        duration: Math.floor(note.duration * factor),
      }));
      expect(costOf(slower), JSON.stringify(slower.notes)).toBeLessThan(Number.POSITIVE_INFINITY);
    }
  }
  expect(seen).toBeGreaterThan(5);
});
