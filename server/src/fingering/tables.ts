// Tables of steps between two layers, put together from parts: pairs of grips, moves of the hand, and what an open string carries.
import type { Player } from '../bass/types.ts';
import { type SteadyMove, steadyMove, timedCost } from './cost/move.ts';
import { handCount, handOf, handsOf } from './hands.ts';
import type { Layer } from './layers.ts';
import { hops } from './limits/hop.ts';
import type { Passed } from './limits/time.ts';
import { leastFactor, paceUnit, shiftTimes, spansOf } from './pace.ts';
import { never, type StepRules, type Way } from './rules.ts';
import { carries, gripStepCost } from './step.ts';

/** Each grip of one note after each grip of another, by `[a * grips of the later + b]`: cost without time and move (`never` if forbidden), and whether a finger hops. */
export interface GripPairs {
  readonly costs: Int32Array;
  readonly hops: Uint8Array;
}

/** Pairs of all grips, each by its first state. */
export function gripPairs(rules: StepRules, from: Layer, to: Layer, way: Way): GripPairs {
  const [before, after] = [firstStates(from), firstStates(to)];
  const costs = before.flatMap((a) => after.map((b) => gripStepCost(rules, a, b, way)));
  const hopping = before.flatMap((a) => after.map((b) => Number(hops(a.places, b.places))));
  return { costs: Int32Array.from(costs), hops: Uint8Array.from(hopping) };
}

function firstStates({ states }: Layer): Layer['states'] {
  return states.filter((state, i) => i === 0 || state.grip !== states[i - 1]!.grip);
}

/** Each move from hand to hand, `[from * handCount + to]`: what of it does not depend on the time there is, and the least time it takes. */
export interface Moves {
  readonly steady: readonly (SteadyMove | null)[];
  readonly needed: Int32Array;
}

/** All moves between the hands that a player's frames have; the others are left out. */
export function allMoves({ player, weights }: StepRules): Moves {
  const hands = handsOf(player);
  const steady = new Array<SteadyMove | null>(handCount ** 2).fill(null);
  for (const from of hands) {
    for (const to of hands) steady[from * handCount + to] = steadyMove(player, weights, handOf(from)!, handOf(to)!);
  }
  return { steady, needed: shiftTimes(player, 'limit') };
}

/** Cost of each move in `available` microseconds, `never` where it is too far; from and to no hand it is free. */
export function moveCells({ weights, timed, lifted }: StepRules, { steady, needed }: Moves, available: number): Int32Array {
  const judged = timed === 'judged' && !lifted.has('time');
  return Int32Array.from(steady, (move, at) => {
    if (move === null) return 0;
    return judged && needed[at]! > available ? never : timedCost(weights, move, available);
  });
}

/** Costs of a table's steps, `[a * width + b]`. `moves`: cells of `moveCells` by the open notes before the step. `quick`: hops are forbidden. */
export function stepCells(from: Layer, to: Layer, pairs: GripPairs, moves: readonly Int32Array[], quick: boolean): Int32Array {
  const width = to.states.length;
  const grips = to.gripSet.grips.length;
  const cells = new Int32Array(from.states.length * width).fill(never);
  for (let a = 0, at = 0; a < from.states.length; a++) {
    const [hand, free, row] = [from.hands[a]!, from.freeNotes[a]!, from.gripOf[a]! * grips];
    const moved = moves[free]!;
    for (let b = 0; b < width; b++, at++) {
      const [nextHand, nextFree, pair] = [to.hands[b]!, to.freeNotes[b]!, row + to.gripOf[b]!];
      if (quick && pairs.hops[pair]! > 0) continue;
      if (nextFree > 0 && !carries(hand, free, nextHand, nextFree)) continue;
      const cost = pairs.costs[pair]! + (nextFree > 0 ? 0 : moved[hand * handCount + nextHand]!);
      if (cost < never) cells[at] = cost;
    }
  }
  return cells;
}

/** Least slowdown with which each step of a table can be played, in `paceUnit`; `never` where no tempo helps. */
export function paceCells(
  { limits }: Player,
  from: Layer,
  to: Layer,
  pairs: GripPairs,
  times: Int32Array,
  passed: readonly Passed[],
): Int32Array {
  const width = to.states.length;
  const grips = to.gripSet.grips.length;
  const spans = spansOf(passed);
  const hop = paceUnit * (limits.hop / (passed[0]?.step ?? 0));
  const cells = new Int32Array(from.states.length * width).fill(never);
  for (let a = 0, at = 0; a < from.states.length; a++) {
    const [hand, free, row] = [from.hands[a]!, from.freeNotes[a]!, from.gripOf[a]! * grips];
    const span = spans[free]!;
    for (let b = 0; b < width; b++, at++) {
      const [nextHand, nextFree, pair] = [to.hands[b]!, to.freeNotes[b]!, row + to.gripOf[b]!];
      if (pairs.costs[pair]! >= never || !carries(hand, free, nextHand, nextFree)) continue;
      const moving = nextFree > 0 ? 0 : paceUnit * leastFactor(limits, times[hand * handCount + nextHand]!, span);
      const slowest = pairs.hops[pair]! > 0 ? Math.max(hop, moving) : moving;
      cells[at] = Math.min(never, Math.ceil(slowest));
    }
  }
  return cells;
}
