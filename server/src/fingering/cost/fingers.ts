// Cost of one finger after another on the same string.
import type { Place } from '../types.ts';
import type { Weights } from './weights.ts';

/** Two stopped places on one string, the later in the same hand or after a change of place. */
export interface InTurn {
  readonly from: Place;
  readonly to: Place;
  readonly sameHand: boolean;
}

/** Amount of each term. */
export const fingerTerms = {
  /** The same finger after a shift: the old finger leads, at some cost of clarity. */
  sameFinger: ({ from, to, sameHand }: InTurn) => Number(!sameHand && from.finger === to.finger),
  /** Another finger on the same note. */
  changedFinger: ({ from, to }: InTurn) => Number(from.stop === to.stop && from.finger !== to.finger),
  /** A finger that crawls in a thumb hand, by the semitone. */
  crawl: ({ from, to, sameHand }: InTurn) => (sameHand && from.finger === to.finger ? Math.abs(to.stop - from.stop) : 0),
};

/** Cost in milli-units. */
export function fingerCost(weights: Weights, turn: InTurn): number {
  return (
    weights.sameFinger * fingerTerms.sameFinger(turn) +
    weights.changedFinger * fingerTerms.changedFinger(turn) +
    weights.crawl * fingerTerms.crawl(turn)
  );
}
