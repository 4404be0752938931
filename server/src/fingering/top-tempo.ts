// How much a part may be sped up: bottleneck passes over the least slowdown of each step. No search.
import type { TableCache } from './cache.ts';
import { type Chain, timingInto } from './chain.ts';
import { linksOf } from './links.ts';
import { modelFor } from './model.ts';
import type { Ease } from './pace.ts';
import type { Task } from './types.ts';
import type { Stretch } from './windows.ts';

/** Least worst factor to each target after one step. */
function paceStep(before: Float64Array, factors: Float64Array, width: number): Float64Array {
  const after = new Float64Array(width).fill(Number.POSITIVE_INFINITY);
  for (let a = 0; a < before.length; a++) {
    const base = before[a]!;
    if (base === Number.POSITIVE_INFINITY) continue;
    for (let b = 0, at = a * width; b < width; b++, at++) {
      const worst = Math.max(base, factors[at]!);
      if (worst < after[b]!) after[b] = worst;
    }
  }
  return after;
}

const leastIn = (worst: Float64Array): number => worst.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** How far a part may be sped up by the hand's limits: a factor on the tempo, or null where no time binds or no tempo helps. Yields the edges worked on. */
export function* speedOf({ task, links, layer, table }: Chain, ease: Ease): Generator<number, number | null> {
  const reached: Float64Array[] = [];
  let slowest = 0;
  for (let i = 0; i < task.notes.length; i++) {
    const before = reached[links.pred[i]!];
    const own = before ? paceStep(before, table(i).pace(ease), table(i).width) : new Float64Array(layer(i).states.length);
    slowest = Math.max(slowest, leastIn(own));
    if (slowest === Number.POSITIVE_INFINITY) return null;
    reached.push(own);
    yield own.length * (before?.length ?? 1);
  }
  return slowest === 0 ? null : 1 / slowest;
}

/** Least factor for notes in a row that begin with a free hand, over 1 = slower than written; null where no tempo makes them playable, 0 where no time binds. */
export function factorOver(task: Task, cache: TableCache, { first, last }: Stretch): number | null {
  const model = modelFor(task, cache);
  const links = linksOf(task);
  let from = model.layers.layerFor(task.notes[first]!, model.layers.start);
  let worst = new Float64Array(from.states.length);
  for (let index = first + 1; index <= last; index++) {
    const note = task.notes[index]!;
    const to = model.layers.layerFor(note, from.carried);
    const table = model.tableFor(from, to, note.articulation, timingInto(model, task, links, index));
    worst = paceStep(worst, table.pace('limit'), table.width) as Float64Array<ArrayBuffer>;
    from = to;
  }
  const least = leastIn(worst);
  return Number.isFinite(least) ? least : null;
}
