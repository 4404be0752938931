// Bottleneck passes over stretches of a task: the least factor on all times with which they can be played.
import type { TableCache } from './cache.ts';
import { layerOf } from './chain.ts';
import type { Layer } from './layers.ts';
import { type Model, modelFor } from './model.ts';
import { type Ease, paceStep, shiftTimes } from './top-tempo.ts';
import type { Task } from './types.ts';
import type { Stretch } from './windows.ts';

/** Least factor for a stretch, over 1 = slower than written; null where no tempo makes it playable, 0 where no time binds. */
export function factorOver(task: Task, cache: TableCache, stretch: Stretch, ease: Ease = 'limit'): number | null {
  const model = modelFor(task, cache);
  const times = shiftTimes(task.player, ease);
  let layer = layerOf(model, task, stretch.first, model.layers.start);
  let worst: Float64Array = new Float64Array(layer.states.length);
  for (let index = stretch.first + 1; index <= stretch.last; index++) {
    const to = layerOf(model, task, index, layer.carried);
    worst = paced(model, task, times, { layer, worst, to, index });
    layer = to;
  }
  const least = worst.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  return Number.isFinite(least) ? least : null;
}

interface Pace {
  readonly layer: Layer;
  readonly worst: Float64Array;
  readonly to: Layer;
  readonly index: number;
}

function paced(model: Model, task: Task, times: Int32Array, { layer, worst, to, index }: Pace): Float64Array {
  return paceStep(model, times, worst, { from: layer, to, notes: task.notes, index });
}

/** How far a stretch may be sped up by the hand's limits: a factor on the tempo, or null where no time binds or no tempo helps. */
export function speedOver(task: Task, cache: TableCache, stretch: Stretch, ease: Ease): number | null {
  const factor = factorOver(task, cache, stretch, ease);
  return factor === null || factor === 0 ? null : 1 / factor;
}
