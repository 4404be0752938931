// Minimal windows: the shortest passages that no hand plays.
import { passedBefore, startCosts } from './chain.ts';
import type { Links } from './links.ts';
import type { Model } from './model.ts';
import { forwardStep, leastOf } from './passes.ts';
import type { Task } from './types.ts';
import type { Work } from './work.ts';

/** Notes `first` to `last`, both included. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** Where a run from `first` to at most `last` gets stuck: the note that cannot be reached, or null. An open string at the start has a free hand. */
export function* stuckAt(model: Model, task: Task, links: Links, { first, last }: Stretch): Work<number | null> {
  let layer = model.layers.layerFor(task.notes[first]!, model.layers.start);
  let costs = startCosts(layer);
  for (let i = first; ; i++) {
    if (leastOf(costs) < 0) return i;
    if (i === last) return null;
    const next = model.layers.layerFor(task.notes[i + 1]!, layer.carried);
    costs = forwardStep(
      costs,
      model.tableFor(layer, next, task.notes[i + 1]!.articulation, passedBefore(task, links, i + 1, layer.freeMost)),
    );
    yield layer.states.length * next.states.length;
    layer = next;
  }
}

/**
 * All minimal windows within a stretch, in order: run on until stuck at a note, step back to the latest start from which it is stuck too,
 * report, and go on from the note after that start. Each proper part of a window is playable.
 */
export function* minimalWindows(model: Model, task: Task, links: Links, within: Stretch): Work<readonly Stretch[]> {
  const found: Stretch[] = [];
  let start = within.first;
  while (start <= within.last) {
    const last = yield* stuckAt(model, task, links, { first: start, last: within.last });
    if (last === null) break;
    let first = last;
    while ((yield* stuckAt(model, task, links, { first, last })) === null) first--;
    found.push({ first, last });
    start = first + 1;
  }
  return found;
}
