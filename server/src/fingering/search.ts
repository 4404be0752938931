// The search: exact, resumable by work units, for the best fingering or all minimal windows.

import { handWay } from '../bass/index.ts';
import { explainWindow } from './blame.ts';
import type { TableCache } from './cache.ts';
import { layerOf, startCosts, tableInto } from './chain.ts';
import { handOf, namedHand, noHand } from './hands.ts';
import type { Layer, State } from './layers.ts';
import { type Model, modelFor, type Table } from './model.ts';
import { speedOver } from './pace.ts';
import { backwardStep, forwardStep, leastOf, sourceOf } from './passes.ts';
import type { Alternative, Fingered, Placing, Running, Search, Task, TopTempo, Unplayable } from './types.ts';
import { minimalWindows, type Stretch } from './windows.ts';

/** A search that has done nothing yet. It can be dropped at any time. */
export function startSearch(task: Task, tables: TableCache): Search {
  const work = solve(task, tables);
  let done = 0;
  let result: Fingered | Unplayable | null = null;
  return {
    step: (units): Running | Fingered | Unplayable => {
      const until = done + units;
      while (result === null && done < until) {
        const next = work.next();
        if (next.done) result = next.value;
        else done += next.value;
      }
      return result ?? { kind: 'running', done, total: Math.max(done, expectedWork(task)) };
    },
  };
}

/** Runs a search to its end. */
export function search(task: Task, tables: TableCache): Fingered | Unplayable {
  const result = startSearch(task, tables).step(Number.POSITIVE_INFINITY);
  if (result.kind === 'running') throw new Error('A search without a bound on its work has ended early.');
  return result;
}

/** About as many edges as a note of a tune has. */
const edgesPerNote = 1200;
function expectedWork(task: Task): number {
  return task.notes.length * edgesPerNote;
}

/** Forward costs of one stretch of notes. */
interface Pass {
  readonly stretch: Stretch;
  readonly layers: readonly Layer[];
  readonly tables: readonly (Table | null)[];
  readonly costs: readonly Int32Array[];
}

function* solve(task: Task, cache: TableCache): Generator<number, Fingered | Unplayable> {
  const model = modelFor(task, cache);
  const stretches = stretchesOf(task);
  const passes: Pass[] = [];
  for (const stretch of stretches) {
    const pass = yield* forward(model, task, stretch);
    if (pass === null) return yield* unplayable(model, task, cache, stretches);
    passes.push(pass);
  }
  return fingered(task, cache, passes, stretches);
}

/** Runs of notes that follow each other. */
function stretchesOf(task: Task): readonly Stretch[] {
  const starts = [0, ...task.breaks.filter((at) => at > 0 && at < task.notes.length)];
  return task.notes.length === 0 ? [] : starts.map((first, i) => ({ first, last: (starts[i + 1] ?? task.notes.length) - 1 }));
}

/** Layers, tables and costs of a stretch, or null where it gets stuck. */
function* forward(model: Model, task: Task, stretch: Stretch): Generator<number, Pass | null> {
  let layer = layerOf(model, task, stretch.first, model.layers.start);
  let costs = startCosts(layer);
  const pass = { stretch, layers: [layer], tables: [null] as (Table | null)[], costs: [costs] };
  for (let i = stretch.first + 1; leastOf(costs) >= 0; i++) {
    if (i > stretch.last) return pass;
    const next = layerOf(model, task, i, layer.carried);
    const table = tableInto(model, task, i, layer, next);
    costs = forwardStep(costs, table);
    layer = next;
    pass.layers.push(layer);
    pass.tables.push(table);
    pass.costs.push(costs);
    yield table.cells.length;
  }
  return null;
}

function fingered(task: Task, cache: TableCache, passes: readonly Pass[], stretches: readonly Stretch[]): Fingered {
  const placings = passes.flatMap((pass) => placingsOf(task, pathOf(pass)));
  let regrets: ((note: number) => readonly Alternative[]) | null = null;
  return {
    kind: 'fingered',
    cost: passes.reduce((sum, pass) => sum + leastCost(pass), 0),
    placings,
    exact: task.jumps.length === 0,
    topTempo: topTempoOf(task, cache, stretches),
    alternatives: (note, most) => {
      regrets ??= makeAlternatives(passes, placings);
      return regrets(note).slice(0, most);
    },
  };
}

function leastCost(pass: Pass): number {
  const last = pass.costs.at(-1)!;
  return last[leastOf(last)]!;
}

/** The cheapest way, ties by the order of states. */
function pathOf(pass: Pass): readonly State[] {
  const path: State[] = [];
  let at = leastOf(pass.costs.at(-1)!);
  for (let i = pass.layers.length - 1; i >= 0; i--) {
    path.push(pass.layers[i]!.states[at]!);
    if (i > 0) at = sourceOf(pass.costs[i - 1]!, pass.tables[i]!, at, pass.costs[i]![at]!);
  }
  return path.reverse();
}

function placingsOf(task: Task, path: readonly State[]): readonly Placing[] {
  const { mensur } = task.player.setup;
  return path.map((state, i) => {
    const before = path[i - 1];
    const moved = before !== undefined && before.hand !== noHand && before.hand !== state.hand;
    const travel = moved ? handWay(mensur, handOf(before.hand)!, handOf(state.hand)!) : 0;
    return { places: state.places, hand: namedHand(state.hand, state.places), shift: moved, travel };
  });
}

/** Alternatives by note: every grip at its cheapest, once each, by what it costs the whole more than the best. */
function makeAlternatives(passes: readonly Pass[], placings: readonly Placing[]): (note: number) => readonly Alternative[] {
  const totals = passes.map(totalCosts);
  return (note) => {
    const p = passes.findIndex(({ stretch }) => note >= stretch.first && note <= stretch.last);
    const pass = passes[p];
    const placing = placings[note];
    if (!pass || !placing) return [];
    const index = note - pass.stretch.first;
    const sums = totals[p]![index]!;
    const least = leastCost(pass);
    const cheapest = new Map<string, Alternative>();
    const order = [...sums.keys()].filter((i) => sums[i]! < noWay).sort((a, b) => sums[a]! - sums[b]! || a - b);
    cheapest.set(seen(placing.places), { places: placing.places, hand: placing.hand, regret: 0 });
    for (const i of order) {
      const state = pass.layers[index]!.states[i]!;
      const key = seen(state.places);
      if (!cheapest.has(key))
        cheapest.set(key, { places: state.places, hand: namedHand(state.hand, state.places), regret: sums[i]! - least });
    }
    return [...cheapest.values()];
  };
}

const noWay = 1 << 30;

/** What the player sees of a grip: string, stop, finger. */
function seen(places: Placing['places']): string {
  return places.map((place) => `${place.string}/${place.stop}/${place.finger}`).join();
}

/** Cost of the best whole way through each state of each layer. */
function totalCosts(pass: Pass): readonly Int32Array[] {
  const totals: Int32Array[] = [];
  let toEnd: Int32Array = new Int32Array(pass.costs.at(-1)!.length);
  for (let i = pass.layers.length - 1; i >= 0; i--) {
    totals.push(pass.costs[i]!.map((cost, j) => Math.min(noWay, cost + toEnd[j]!)));
    if (i > 0) toEnd = backwardStep(toEnd, pass.tables[i]!);
  }
  return totals.reverse();
}

function topTempoOf(task: Task, cache: TableCache, stretches: readonly Stretch[]): TopTempo {
  const least = (ease: 'limit' | 'comfortable'): number | null => {
    const speeds = stretches.map((stretch) => speedOver(task, cache, stretch, ease)).filter((speed) => speed !== null);
    return speeds.length === 0 ? null : Math.min(...speeds);
  };
  return { limit: least('limit'), comfortable: least('comfortable') };
}

function* unplayable(model: Model, task: Task, cache: TableCache, stretches: readonly Stretch[]): Generator<number, Unplayable> {
  const found: Stretch[] = [];
  for (const stretch of stretches) found.push(...(yield* minimalWindows(model, task, stretch)));
  const rest: (Placing | null)[] = task.notes.map(() => null);
  for (const stretch of playableStretches(stretches, found)) {
    const pass = yield* forward(model, task, stretch);
    if (pass === null) continue;
    placingsOf(task, pathOf(pass)).forEach((placing, i) => {
      rest[stretch.first + i] = placing;
    });
  }
  const windows = found.map((stretch) => explainWindow(task, cache, stretch));
  return { kind: 'unplayable', windows, rest, topTempo: topTempoOf(task, cache, stretches) };
}

/** What lies between the windows, cut where a window or a break lies. */
function playableStretches(stretches: readonly Stretch[], windows: readonly Stretch[]): readonly Stretch[] {
  const blocked = new Set(windows.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, i) => first + i)));
  return stretches.flatMap(({ first, last }) => {
    const runs: Stretch[] = [];
    let start = first;
    for (let i = first; i <= last + 1; i++) {
      if (i <= last && !blocked.has(i)) continue;
      if (i > start) runs.push({ first: start, last: i - 1 });
      start = i + 1;
    }
    return runs;
  });
}
