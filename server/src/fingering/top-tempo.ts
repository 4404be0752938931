// How much a part may be sped up: bottleneck passes over the least slowdown of each step. No search.
import type { TableCache } from './cache.ts';
import { type Chain, passedBefore } from './chain.ts';
import { linksOf } from './links.ts';
import { modelFor } from './model.ts';
import { type Ease, paceUnit } from './pace.ts';
import { never } from './rules.ts';
import type { Task } from './types.ts';
import type { Stretch } from './windows.ts';
import type { Work } from './work.ts';

/** Least worst slowdown to each target after one step; sources no better than `bound` are left out. */
function paceStep(before: Int32Array, paces: Int32Array, width: number, bound: number): Int32Array {
  const after = new Int32Array(width).fill(never);
  for (let a = 0; a < before.length; a++) {
    const base = before[a]!;
    if (base >= bound) continue;
    for (let b = 0, at = a * width; b < width; b++, at++) {
      const worst = Math.max(base, paces[at]!);
      if (worst < after[b]!) after[b] = worst;
    }
  }
  return after;
}

function leastIn(worst: Int32Array): number {
  let least = never;
  for (let i = 0; i < worst.length; i++) least = Math.min(least, worst[i]!);
  return least;
}

/**
 * How far a part may be sped up by the hand's limits: a factor on the tempo, or null where no time binds or no tempo helps. Where a `path`
 * through the part is known its own slowdown bounds what need be tried.
 */
export function* speedOf(chain: Chain, ease: Ease, path: readonly number[] | null): Work<number | null> {
  const { task, links, layer, table } = chain;
  const bound = path === null ? never : paceOf(chain, ease, path);
  const reached: Int32Array[] = [];
  let slowest = 0;
  for (let i = 0; i < task.notes.length && slowest < bound; i++) {
    const before = reached[links.pred[i]!];
    const own = before ? paceStep(before, table(i).pace(ease), table(i).width, bound) : new Int32Array(layer(i).states.length);
    slowest = Math.max(slowest, Math.min(bound, leastIn(own)));
    reached.push(own);
    yield own.length * (before?.length ?? 1);
  }
  return slowest === 0 || slowest >= never ? null : paceUnit / slowest;
}

/** Slowdown of one path. */
function paceOf({ links, table }: Chain, ease: Ease, path: readonly number[]): number {
  return path.reduce((worst, at, i) => {
    const pred = links.pred[i]!;
    return pred < 0 ? worst : Math.max(worst, table(i).pace(ease)[path[pred]! * table(i).width + at]!);
  }, 0);
}

/** Least factor for notes in a row that begin with a free hand, over 1 = slower than written; null where no tempo makes them playable, 0 where no time binds. */
export function* factorOver(task: Task, cache: TableCache, { first, last }: Stretch): Work<number | null> {
  const model = modelFor(task, cache);
  const links = linksOf(task);
  let from = model.layers.layerFor(task.notes[first]!, model.layers.start);
  let worst: Int32Array = new Int32Array(from.states.length);
  for (let index = first + 1; index <= last; index++) {
    const note = task.notes[index]!;
    const to = model.layers.layerFor(note, from.carried);
    const table = model.tableFor(from, to, note.articulation, passedBefore(task, links, index, from.freeMost));
    worst = paceStep(worst, table.pace('limit'), table.width, never);
    yield from.states.length * to.states.length;
    from = to;
  }
  const least = leastIn(worst);
  return least >= never ? null : least / paceUnit;
}
