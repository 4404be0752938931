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
  /** Fourth power: a move that fills its time costs much more than two that do not. */
  haste: (player, { from, to, available }) => {
    const needed = moveTime(player, from, to, player.limits.acceleration.comfortable);
    return available <= 0 ? hasteMost : Math.min(hasteMost, (needed / available) ** 4);
  },
  thumbInOut: (_, { from, to }) => Number(from.kind !== to.kind),
} satisfies Partial<Record<keyof Weights, Term>>;

const named = Object.entries(moveTerms) as readonly [keyof typeof moveTerms, Term][];

/** Cost of a change of place in milli-units; 0 for the same hand. */
export function moveCost(player: Player, weights: Weights, move: Move): number {
  if (move.from.kind === move.to.kind && move.from.place === move.to.place) return 0;
  return Math.round(named.reduce((sum, [name, term]) => sum + weights[name] * term(player, move), 0));
}
