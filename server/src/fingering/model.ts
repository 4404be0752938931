// The graph of one player under one set of limits: layers, and tables of what each step between two layers costs, all kept in the cache.
import type { Player } from '../bass/types.ts';
import type { TableCache } from './cache.ts';
import { weights as ownWeights, type Weights } from './cost/weights.ts';
import { type Layer, type Layers, makeLayers } from './layers.ts';
import { type Lifted, nothingLifted } from './limits/lifted.ts';
import { type Passed, timingAfter } from './limits/time.ts';
import { type Ease, type Span, shiftTimes, spansOf } from './pace.ts';
import { makeRows, type Rows } from './rows.ts';
import { wayOf } from './rules.ts';
import { allMoves, type GripPairs, gripPairs, moveCells, paceCells, paceMoves, stepCells } from './tables.ts';
import type { Articulation, Task } from './types.ts';

/** Steps from each state of one layer to each state of the next, by `[a * width + b]`. */
export interface Table {
  readonly width: number;
  /** Cost, that of arriving included. */
  readonly cells: Int32Array;
  /** Least slowdown with which the step can be played, in `paceUnit`. */
  pace(ease: Ease): Int32Array;
}

/** A graph: rules, layers and tables. */
export interface Model {
  readonly player: Player;
  readonly weights: Weights;
  readonly lifted: Lifted;
  readonly timed: Task['timed'];
  readonly layers: Layers;
  readonly rows: Rows;
  /** Cost of each move from hand to hand in `available` microseconds: `[from * handCount + to]`. */
  movesFor(available: number): Int32Array;
  /** `passed`: notes before the step, nearest first, at least as many as `from` counts open ones and one more where there are as many. */
  tableFor(from: Layer, to: Layer, articulation: Articulation, passed: readonly Passed[]): Table;
}

/** The model of a task's player, from the cache or new. */
export function modelFor(task: Task, cache: TableCache, lifted: Lifted = nothingLifted, weights: Weights = ownWeights): Model {
  const owner = JSON.stringify([task.player.setup, task.timed, [...lifted].sort(), weights === ownWeights ? 0 : weights]);
  return cache.owned(owner, () => makeModel(task, cache, lifted, weights));
}

function makeModel({ player, timed }: Task, cache: TableCache, lifted: Lifted, weights: Weights): Model {
  const rules = { player, weights, lifted, timed };
  const layers = makeLayers(rules, cache.grew);
  const all = cache.owned(JSON.stringify(['moves', player.setup, weights]), () => allMoves(rules));
  const rows = makeRows(cache.grew);
  const tables = new Map<string, Table>();
  const pairs = new Map<string, GripPairs>();
  const moves = new Map<number, Int32Array>();
  const grown = <T extends { readonly byteLength: number }>(made: T): T => {
    cache.grew(made.byteLength);
    return made;
  };
  const paces = new Map<string, Int32Array>();
  const pacesFor = (ease: Ease, span: Span): Int32Array =>
    remembered(paces, `${ease} ${span.open}/${span.step}/${span.duration}`, () => grown(paceMoves(player, shiftTimes(player, ease), span)));
  const movesFor = (available: number): Int32Array => remembered(moves, available, () => grown(moveCells(rules, all, available)));
  const tableFor = (from: Layer, to: Layer, articulation: Articulation, passed: readonly Passed[]): Table => {
    const way = wayOf(articulation);
    return remembered(tables, `${from.id},${to.id},${way},${passedKey(passed)}`, () => {
      const timing = timingAfter(player.limits, passed);
      const paired = remembered(pairs, `${from.gripSet.id},${to.gripSet.id},${way}`, () => {
        const made = gripPairs(rules, from, to, way);
        grown(made.hops);
        return { ...made, costs: grown(made.costs) };
      });
      const quick = timed === 'judged' && timing.step < player.limits.hop && !lifted.has('hop');
      const moved = timing.available.slice(0, from.freeMost + 1).map(movesFor);
      const pacesOf = new Map<Ease, Int32Array>();
      return {
        width: to.states.length,
        cells: grown(stepCells(from, to, paired, moved, quick)),
        pace: (ease) =>
          remembered(pacesOf, ease, () => {
            const spans = spansOf(passed).slice(0, from.freeMost + 1);
            return grown(
              paceCells(
                player,
                from,
                to,
                paired,
                spans.map((span) => pacesFor(ease, span)),
                timing.step,
              ),
            );
          }),
      };
    });
  };
  return { ...rules, layers, rows, movesFor, tableFor };
}

/** Times are all that a step depends on beyond its layers, as far back as the hand may have been left. */
function passedKey(passed: readonly Passed[]): string {
  let key = '';
  for (let i = 0; i < passed.length; i++) key += `${passed[i]!.step}/${passed[i]!.duration};`;
  return key;
}

function remembered<K, T>(store: Map<K, T>, key: K, make: () => T): T {
  const found = store.get(key);
  if (found !== undefined) return found;
  const made = make();
  store.set(key, made);
  return made;
}
