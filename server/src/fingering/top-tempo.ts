// How much a part may be sped up: bottleneck passes over the least slowdown of each step. No search.
import type { TableCache } from './cache.ts';
import { type Chain, passedBefore } from './chain.ts';
import type { Layer } from './layers.ts';
import { linksOf } from './links.ts';
import { type Model, modelFor } from './model.ts';
import { type Ease, paceUnit } from './pace.ts';
import type { Reached, Row } from './rows.ts';
import { never } from './rules.ts';
import type { Task } from './types.ts';
import type { Stretch } from './windows.ts';
import type { Work } from './work.ts';

/** Least worst slowdown to each target after one step. */
function paceStep(before: Int32Array, paces: Int32Array): Int32Array {
  const width = paces.length / before.length;
  const after = new Int32Array(width).fill(never);
  for (let a = 0, at = 0; a < before.length; a++) {
    const base = before[a]!;
    for (let b = 0; b < width; b++, at++) {
      const worst = Math.max(base, paces[at]!);
      if (worst < after[b]!) after[b] = worst;
    }
  }
  return after;
}

/** Row after one step, worked out once for each row and table. */
function paceAfter({ rows }: Model, before: Row, paces: Int32Array): Reached {
  return rows.after(before, paces, (cells) => rows.asIs(paceStep(cells, paces)));
}

/** Row of a first note: nothing has been slow yet. */
function paceStart({ rows }: Model, { states }: Layer): Reached {
  return rows.asIs(new Int32Array(states.length));
}

/**
 * How far a part may be sped up by the hand's limits: a factor on the tempo, or null where no time binds or no tempo helps. Where a `path`
 * through the part is known its own slowdown bounds what need be tried.
 */
export function* speedOf(chain: Chain, ease: Ease, path: readonly number[] | null): Work<number | null> {
  const { model, task, links, layer, table } = chain;
  const bound = path === null ? never : yield* paceOf(chain, ease, path);
  const reached: Reached[] = [];
  let slowest = 0;
  for (let i = 0; i < task.notes.length && slowest < bound; i++) {
    const before = reached[links.pred[i]!];
    const own = before ? paceAfter(model, before.row, table(i).pace(ease)) : paceStart(model, layer(i));
    slowest = Math.max(slowest, Math.min(bound, own.least));
    reached.push(own);
    yield layer(i).states.length * (before?.row.cells.length ?? 1);
  }
  return slowest === 0 || slowest >= never ? null : paceUnit / slowest;
}

/** Slowdown of one path. */
function* paceOf({ links, table }: Chain, ease: Ease, path: readonly number[]): Work<number> {
  let worst = 0;
  for (let i = 0; i < path.length; i++) {
    const pred = links.pred[i]!;
    if (pred < 0) continue;
    const paces = table(i).pace(ease);
    worst = Math.max(worst, paces[path[pred]! * table(i).width + path[i]!]!);
    yield paces.length;
  }
  return worst;
}

/** Least factor for notes in a row that begin with a free hand, over 1 = slower than written; null where no tempo makes them playable, 0 where no time binds. */
export function* factorOver(task: Task, cache: TableCache, { first, last }: Stretch): Work<number | null> {
  const model = modelFor(task, cache);
  const links = linksOf(task);
  let from = model.layers.layerFor(task.notes[first]!, model.layers.start);
  let reached = paceStart(model, from);
  for (let index = first + 1; index <= last; index++) {
    const note = task.notes[index]!;
    const to = model.layers.layerFor(note, from.carried);
    const table = model.tableFor(from, to, note.articulation, passedBefore(task, links, index, from.freeMost));
    reached = paceAfter(model, reached.row, table.pace('limit'));
    yield from.states.length * to.states.length;
    from = to;
  }
  return reached.least >= never ? null : reached.least / paceUnit;
}
