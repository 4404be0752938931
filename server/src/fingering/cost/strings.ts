// Cost of going from string to string.
import type { Place } from '../types.ts';
import type { Weights } from './weights.ts';

/** How many strings lie between two grips: 0 when they share one. */
export function stringSteps(from: readonly Place[], to: readonly Place[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const a of from) for (const b of to) least = Math.min(least, Math.abs(a.string - b.string));
  return least;
}

/** Amount of each term for `steps` strings. */
export const stringTerms = {
  crossing: (steps: number) => Number(steps > 0),
  skip: (steps: number) => Math.max(0, steps - 1),
};

/** Cost in milli-units. */
export function stringCost(weights: Weights, steps: number): number {
  return weights.crossing * stringTerms.crossing(steps) + weights.skip * stringTerms.skip(steps);
}
