// Tables of steps between two layers, put together from parts: pairs of grips, moves of the hand, and what an open string carries.
import type { Player } from '../bass/types.ts';
import { type SteadyMove, steadyMove, timedCost } from './cost/move.ts';
import { stringCost, stringWay } from './cost/strings.ts';
import { fingerRank, handCount, handOf, handsOf } from './hands.ts';
import type { Layer, State } from './layers.ts';
import { hops } from './limits/hop.ts';
import { leastFactor, paceUnit, type Span, shiftTimes } from './pace.ts';
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
  const costOf =
    way === 'free' ? freeCosts(rules, before, after) : (a: number, b: number) => gripStepCost(rules, before[a]!, after[b]!, way);
  const [fingersBefore, fingersAfter] = [before.map(fingersOf), after.map(fingersOf)];
  const costs = new Int32Array(before.length * after.length);
  const hopping = new Uint8Array(costs.length);
  for (let a = 0, at = 0; a < before.length; a++) {
    for (let b = 0; b < after.length; b++, at++) {
      costs[at] = costOf(a, b);
      // Without a finger in both there is none to hop.
      if ((fingersBefore[a]! & fingersAfter[b]!) !== 0 && hops(before[a]!.places, after[b]!.places)) hopping[at] = 1;
    }
  }
  return { costs, hops: hopping };
}

/** Stopping fingers of a state as bits. */
function fingersOf({ places }: State): number {
  return places.reduce((bits, { finger }) => (finger === '0' ? bits : bits | (1 << fingerRank(finger))), 0);
}

/** Costs of pairs that nothing binds: the strings are the same for all grips on the same strings, and fingers follow each other on a shared string only. */
function freeCosts(rules: StepRules, before: readonly State[], after: readonly State[]): (a: number, b: number) => number {
  const [groupsBefore, groupsAfter] = [groupsOf(before), groupsOf(after)];
  const width = groupsAfter.first.length;
  const crossings = groupsBefore.first.flatMap((a) =>
    groupsAfter.first.map((b) => stringCost(rules.weights, stringWay(before[a]!.places, after[b]!.places))),
  );
  const shared = groupsBefore.first.flatMap((a) => groupsAfter.first.map((b) => shareString(before[a]!, after[b]!)));
  return (a, b) => {
    const pair = groupsBefore.of[a]! * width + groupsAfter.of[b]!;
    return shared[pair] ? gripStepCost(rules, before[a]!, after[b]!, 'free') : after[b]!.cost + crossings[pair]!;
  };
}

/** States grouped by their strings, open ones apart: the group of each, and the first of each group. */
function groupsOf(states: readonly State[]): { readonly of: readonly number[]; readonly first: readonly number[] } {
  const known = new Map<string, number>();
  const first: number[] = [];
  const of = states.map(({ places }, i) => {
    const key = places.map(({ string, stop }) => (stop === 0 ? `${string}o` : string)).join();
    const group = known.get(key) ?? first.push(i) - 1;
    known.set(key, group);
    return group;
  });
  return { of, first };
}

function shareString(a: State, b: State): boolean {
  return a.places.some((from) => b.places.some((to) => from.stop > 0 && to.stop > 0 && from.string === to.string));
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

/** Least slowdown of each move from hand to hand in one span, `[from * handCount + to]`, in `paceUnit`. */
export function paceMoves({ limits }: Player, times: Int32Array, span: Span): Int32Array {
  return times.map((needed) => Math.min(never, Math.ceil(paceUnit * leastFactor(limits, needed, span))));
}

/** Least slowdown with which each step of a table can be played, `[a * width + b]` in `paceUnit`; `never` where no tempo helps. `moves`: those of `paceMoves` by the open notes before the step, whose time is `step`. */
export function paceCells(
  { limits }: Player,
  from: Layer,
  to: Layer,
  pairs: GripPairs,
  moves: readonly Int32Array[],
  step: number,
): Int32Array {
  const width = to.states.length;
  const grips = to.gripSet.grips.length;
  const hop = Math.min(never, Math.ceil(paceUnit * (limits.hop / step)));
  const cells = new Int32Array(from.states.length * width).fill(never);
  for (let a = 0, at = 0; a < from.states.length; a++) {
    const [hand, free, row] = [from.hands[a]!, from.freeNotes[a]!, from.gripOf[a]! * grips];
    const moved = moves[free]!;
    for (let b = 0; b < width; b++, at++) {
      const [nextHand, nextFree, pair] = [to.hands[b]!, to.freeNotes[b]!, row + to.gripOf[b]!];
      if (pairs.costs[pair]! >= never || !carries(hand, free, nextHand, nextFree)) continue;
      const moving = nextFree > 0 ? 0 : moved[hand * handCount + nextHand]!;
      cells[at] = pairs.hops[pair]! > 0 ? Math.max(hop, moving) : moving;
    }
  }
  return cells;
}
