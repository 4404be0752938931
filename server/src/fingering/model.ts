// The graph of one player under one set of limits: layers, and tables of what each step between two layers costs.
import { shiftTime } from '../bass/index.ts';
import type { Player } from '../bass/types.ts';
import type { TableCache } from './cache.ts';
import { moveCost } from './cost/move.ts';
import { weights as ownWeights, type Weights } from './cost/weights.ts';
import { handCount, handOf, noHand } from './hands.ts';
import { type Layer, type Layers, makeLayers, type State } from './layers.ts';
import { hops } from './limits/hop.ts';
import { type Lifted, nothingLifted } from './limits/lifted.ts';
import type { Timing } from './limits/time.ts';
import { stepCost } from './step.ts';
import type { Articulation, Task } from './types.ts';

/** More than any sum of costs: no way. */
export const never = 1 << 30;

/** Cost of each step from a state of one layer to a state of the next, the cost of arriving included: `cells[a * width + b]`. */
export interface Table {
  readonly width: number;
  readonly cells: Int32Array;
}

/** A graph: rules, layers and tables. */
export interface Model {
  readonly player: Player;
  readonly weights: Weights;
  readonly lifted: Lifted;
  readonly timed: Task['timed'];
  readonly layers: Layers;
  /** The part of a table that does not depend on time: no hop and no move is judged or paid in it. */
  stillFor(from: Layer, to: Layer, articulation: Articulation): Int32Array;
  /** 1 for each step in which a finger hops to another string. */
  hopsFor(from: Layer, to: Layer): Int32Array;
  /** Cost of each move from hand to hand in `available` microseconds: `[from * handCount + to]`. */
  movesFor(available: number): Int32Array;
  tableFor(from: Layer, to: Layer, articulation: Articulation, timing: Timing): Table;
}

/** The model of a task's player, from the cache or new. */
export function modelFor(task: Task, cache: TableCache, lifted: Lifted = nothingLifted, weights: Weights = ownWeights): Model {
  const owner = JSON.stringify([task.player.setup, task.timed, [...lifted].sort(), weights === ownWeights ? 0 : weights]);
  return cache.owned(owner, () => makeModel(task, cache, lifted, weights));
}

function makeModel({ player, timed }: Task, cache: TableCache, lifted: Lifted, weights: Weights): Model {
  const layers = makeLayers({ player, weights, lifted }, cache.grew);
  const tables = new Map<string, Table>();
  const steps = new Map<string, Int32Array>();
  const moves = new Map<number, Int32Array>();
  const remember = <K, T extends Int32Array>(store: Map<K, T>, key: K, make: () => T): T => {
    const found = store.get(key);
    if (found) return found;
    const made = make();
    store.set(key, made);
    cache.grew(made.byteLength);
    return made;
  };
  const rules = { player, weights, lifted, timed };
  const stillCells = (from: Layer, to: Layer, way: Way, quick: boolean): Int32Array =>
    remember(steps, `${from.id},${to.id},${way}${quick}`, () => stepCells(rules, from, to, way, quick));
  const tableFor = (from: Layer, to: Layer, articulation: Articulation, timing: Timing): Table => {
    const way = wayOf(articulation);
    const quick = timed === 'judged' && timing.step < player.limits.hop && !lifted.has('hop');
    const key = `${from.id},${to.id},${way}${quick},${from.frees.map((free) => timing.available[free]).join()}`;
    const found = tables.get(key);
    if (found) return found;
    const still = stillCells(from, to, way, quick);
    const moved = timing.available.map((time, free) =>
      from.frees.includes(free) ? remember(moves, time, () => moveCells(rules, time)) : null,
    );
    const table = { width: to.states.length, cells: addMoves(still, moved, from.states, to.states) };
    tables.set(key, table);
    cache.grew(table.cells.byteLength);
    return table;
  };
  const hopping = new Map<string, Int32Array>();
  const hopsFor = (from: Layer, to: Layer) => remember(hopping, `${from.id},${to.id}`, () => hopCells(from, to));
  const movesFor = (available: number) => remember(moves, available, () => moveCells(rules, available));
  const stillFor = (from: Layer, to: Layer, articulation: Articulation) => stillCells(from, to, wayOf(articulation), false);
  return { ...rules, layers, stillFor, hopsFor, movesFor, tableFor };
}

/** How the step is bound: all that is plucked is bound alike. */
export type Way = 'free' | 'hammer' | 'pull' | 'glide';
function wayOf(articulation: Articulation): Way {
  return articulation === 'hammer' || articulation === 'pull' || articulation === 'glide' ? articulation : 'free';
}

export interface StepRules {
  readonly player: Player;
  readonly weights: Weights;
  readonly lifted: Lifted;
  readonly timed: Task['timed'];
}

/** The part of a table that does not depend on time. */
function stepCells(rules: StepRules, from: Layer, to: Layer, way: Way, quick: boolean): Int32Array {
  const cells = new Int32Array(from.states.length * to.states.length);
  from.states.forEach((a, i) => {
    to.states.forEach((b, j) => {
      cells[i * to.states.length + j] = stepCost(rules, a, b, way, quick);
    });
  });
  return cells;
}

function hopCells(from: Layer, to: Layer): Int32Array {
  return Int32Array.from(from.states.flatMap((a) => to.states.map((b) => Number(hops(a.places, b.places)))));
}

/** Cost of each move from hand to hand in `available` microseconds, `never` where it is too far. */
function moveCells({ player, weights, timed, lifted }: StepRules, available: number): Int32Array {
  const cells = new Int32Array(handCount * handCount);
  const judged = timed === 'judged' && !lifted.has('time');
  for (let from = 1; from < handCount; from++) {
    for (let to = 1; to < handCount; to++) {
      const [a, b] = [handOf(from)!, handOf(to)!];
      const late = judged && shiftTime(player, a, b, player.limits.acceleration.limit) > available;
      cells[from * handCount + to] = late ? never : moveCost(player, weights, { from: a, to: b, available });
    }
  }
  return cells;
}

function addMoves(still: Int32Array, moves: readonly (Int32Array | null)[], from: readonly State[], to: readonly State[]): Int32Array {
  const cells = Int32Array.from(still);
  for (let i = 0; i < from.length; i++) {
    const { hand, free } = from[i]!;
    if (hand === noHand) continue;
    const row = moves[free]!;
    for (let j = 0; j < to.length; j++) {
      const target = to[j]!;
      if (target.free > 0) continue;
      const at = i * to.length + j;
      const move = row[hand * handCount + target.hand]!;
      cells[at] = move >= never || cells[at]! >= never ? never : cells[at]! + move;
    }
  }
  return cells;
}
