// Bottleneck passes over stretches of a task: the least factor on all times with which they can be played.
import type { TableCache } from './cache.ts';
import { passedBefore } from './chain.ts';
import { linksOf } from './links.ts';
import { modelFor } from './model.ts';
import { type Ease, paceStep, shiftTimes } from './top-tempo.ts';
import type { Task } from './types.ts';
import type { Stretch } from './windows.ts';

/** Least factor for notes in a row, over 1 = slower than written; null where no tempo makes them playable, 0 where no time binds. */
export function factorOver(task: Task, cache: TableCache, { first, last }: Stretch, ease: Ease = 'limit'): number | null {
  const model = modelFor(task, cache);
  const times = shiftTimes(task.player, ease);
  const links = linksOf(task);
  let from = model.layers.layerFor(task.notes[first]!, model.layers.start);
  let worst: Float64Array = new Float64Array(from.states.length);
  for (let index = first + 1; index <= last; index++) {
    const note = task.notes[index]!;
    const to = model.layers.layerFor(note, from.carried);
    worst = paceStep(model, times, worst, { from, to, articulation: note.articulation, passed: passedBefore(task, links, index) });
    from = to;
  }
  const least = worst.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  return Number.isFinite(least) ? least : null;
}

/** How far a stretch may be sped up by the hand's limits: a factor on the tempo, or null where no time binds or no tempo helps. */
export function speedOver(task: Task, cache: TableCache, stretch: Stretch, ease: Ease): number | null {
  const factor = factorOver(task, cache, stretch, ease);
  return factor === null || factor === 0 ? null : 1 / factor;
}
