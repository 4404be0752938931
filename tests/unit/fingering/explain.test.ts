// Two fingerings of one passage differ by named terms whose sum is exactly what the one costs more.
import { expect, it } from 'vitest';
import { explainDifference, makeTables } from '../../../server/src/fingering/index.ts';
import type { Fingered, Pin, Place, Task } from '../../../server/src/fingering/types.ts';
import { evenTask } from '../../support/passages.ts';
import { type Random, randomOf, randomTask, withRepeat } from '../../support/random-task.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
const fingered = (task: Task): Fingered | null => {
  const result = rechecked(task, tables);
  return result.kind === 'fingered' && result.exact ? result : null;
};
const pinnedAt = (task: Task, note: number, places: readonly Place[]): Task => ({
  ...task,
  notes: task.notes.map((one, i) => (i === note ? { ...one, pins: places.map((place): Pin => ({ ...place, harmonic: false })) } : one)),
});

it.each<[string, number, (random: Random) => Task]>([
  ['lines', 41, (random) => randomTask(random, 8)],
  ['repeats and endings', 42, (random) => withRepeat(random, randomTask(random, 6))],
])('the terms sum up to the regret of each alternative: %s', (_, seed, make) => {
  const random = randomOf(seed);
  let compared = 0;
  for (let i = 0; i < 30; i++) {
    const task = make(random);
    const best = fingered(task);
    if (best === null) continue;
    const note = Math.floor(random() * task.notes.length);
    for (const { places, regret } of best.alternatives(note, 4).slice(1)) {
      const other = fingered(pinnedAt(task, note, places));
      if (other === null) continue;
      const terms = explainDifference(task, best.placings, other.placings);
      expect(
        terms.reduce((sum, { cost }) => sum + cost, 0),
        JSON.stringify(task.notes),
      ).toBe(regret);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(15);
});

it('names the change of place that another string saves or costs', () => {
  const task = evenTask([45, 47, 45], 250_000);
  const pin = (finger: '1' | '4'): Pin => ({ finger, string: 0, harmonic: false });
  const stays = fingered(evenTask([45, 47, 45], 250_000, [pin('1'), pin('4'), pin('1')]))!;
  const moves = fingered(evenTask([45, 47, 45], 250_000, [pin('1'), pin('1'), pin('1')]))!;
  const [first] = explainDifference(task, stays.placings, moves.placings);
  // Two changes of place at the weight of one each.
  expect(first).toEqual({ term: 'place', cost: 1800 });
  expect(explainDifference(task, stays.placings, stays.placings)).toEqual([]);
});
