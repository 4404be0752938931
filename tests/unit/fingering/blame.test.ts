// What is blamed is to blame: with it taken away the window can be played, on random passages and on lines pinned from a slower plan; and each proper part of a window can be played as it is.
import { expect, it } from 'vitest';
import { makeTables, search } from '../../../server/src/fingering/index.ts';
import type { Pin, Task, Window } from '../../../server/src/fingering/types.ts';
import { withoutCauses } from '../../support/freed.ts';
import { evenTask } from '../../support/passages.ts';
import { randomOf, randomTask } from '../../support/random-task.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);

function windowsOf(task: Task): readonly Window[] {
  const result = rechecked(task, tables);
  return result.kind === 'unplayable' ? result.windows : [];
}

function freesEach(tasks: readonly Task[]): ReadonlyMap<string, number> {
  const seen = new Map<string, number>();
  for (const task of tasks) {
    for (const { first, last, code, also } of windowsOf(task)) {
      const eased = withoutCauses(task, first, last, [code, ...also]);
      expect(search(eased, makeTables(8e6)).kind, `${[code, ...also]} ${JSON.stringify(task.notes.slice(first, last + 1))}`).toBe(
        'fingered',
      );
      seen.set(code, (seen.get(code) ?? 0) + 1);
    }
  }
  return seen;
}

it('frees every window of random passages', () => {
  const random = randomOf(21);
  const seen = freesEach(Array.from({ length: 250 }, () => randomTask(random, 8)));
  expect(seen.size).toBeGreaterThan(5);
});

it('frees every window of lines that are pinned from a slower plan', () => {
  const random = randomOf(22);
  const scale = [33, 35, 37, 38, 40, 42, 43, 45, 47, 48, 50, 52, 54, 55];
  const lines = Array.from({ length: 12 }, () => {
    let at = 6;
    const pitches = Array.from({ length: 30 }, () => {
      at = Math.min(scale.length - 1, Math.max(0, at + Math.floor(random() * 9) - 4));
      return scale[at]!;
    });
    const slow = search(evenTask(pitches, 500_000), tables);
    if (slow.kind !== 'fingered') throw new Error('the slow plan cannot be played');
    const pins = slow.placings.map(({ places: [place] }): Pin => ({ finger: place!.finger, string: place!.string, harmonic: false }));
    return evenTask(pitches, 70_000, pins);
  });
  expect(freesEach(lines).get('shift.too-far')).toBeGreaterThan(5);
});
