// Cost of moving the hand from one place to another.
import { handWay, isPivot, moveTime } from '../../bass/index.ts';
import type { Hand, Player } from '../../bass/types.ts';
import type { Weights } from './weights.ts';

/** A move in the time there is for it, microseconds. */
export interface Move {
  readonly from: Hand;
  readonly to: Hand;
  readonly available: number;
}

type Term = (player: Player, move: Move) => number;
/** A small move costs less to a player who pivots. Assumed. */
const pivotEase = 0.5;
const hasteMost = 4;
const leapMm = 150;

/** Amount of each term for a change of place. */
export const moveTerms = {
  place: (player, { from, to }) => (player.setup.school === 'pivot' && isPivot(player, from, to) ? pivotEase : 1),
  distance: ({ setup }, { from, to }) => handWay(setup.mensur, from, to) / 100,
  beyondPivot: (player, { from, to }) => Number(!isPivot(player, from, to)),
  leap: ({ setup }, { from, to }) => Math.max(0, handWay(setup.mensur, from, to) - leapMm) / 100,
  haste: (player, { from, to, available }) => haste(moveTime(player, from, to, player.limits.acceleration.comfortable), available),
  thumbInOut: (_, { from, to }) => Number(from.kind !== to.kind),
} satisfies Partial<Record<keyof Weights, Term>>;

/** Fourth power: a move that fills its time costs much more than two that do not. */
function haste(needed: number, available: number): number {
  if (available <= 0) return hasteMost;
  const square = (needed / available) ** 2;
  return Math.min(hasteMost, square * square);
}

const { haste: _, ...steadyTerms } = moveTerms;
const steady = Object.entries(steadyTerms) as readonly [keyof typeof steadyTerms, Term][];

/** A change of place before its time is known: the cost of all terms but haste, and the time it takes in comfort. */
export interface SteadyMove {
  readonly cost: number;
  readonly needed: number;
}

/** What of a move does not depend on time. */
export function steadyMove(player: Player, weights: Weights, from: Hand, to: Hand): SteadyMove {
  if (from.kind === to.kind && from.place === to.place) return { cost: 0, needed: 0 };
  const move = { from, to, available: 0 };
  return {
    cost: steady.reduce((sum, [name, term]) => sum + weights[name] * term(player, move), 0),
    needed: moveTime(player, from, to, player.limits.acceleration.comfortable),
  };
}

/** Cost of a change of place in `available` microseconds, milli-units; 0 for the same hand. */
export function timedCost(weights: Weights, { cost, needed }: SteadyMove, available: number): number {
  return needed === 0 ? 0 : Math.round(cost + weights.haste * haste(needed, available));
}

/** Cost of a change of place in milli-units; 0 for the same hand. */
export function moveCost(player: Player, weights: Weights, { from, to, available }: Move): number {
  return timedCost(weights, steadyMove(player, weights, from, to), available);
}
