// Cost of going from string to string.
import type { Place } from '../types.ts';
import type { Weights } from './weights.ts';

/** The nearest way between two grips: how many strings on, and whether both ends are open. */
export interface StringWay {
  readonly steps: number;
  readonly ends: 'open' | 'stopped';
}

/** The way between two grips; 0 steps when they share a string. */
export function stringWay(from: readonly Place[], to: readonly Place[]): StringWay {
  let nearest: StringWay = { steps: Number.POSITIVE_INFINITY, ends: 'stopped' };
  for (const a of from) {
    for (const b of to) {
      const steps = Math.abs(a.string - b.string);
      if (steps < nearest.steps) nearest = { steps, ends: a.stop === 0 && b.stop === 0 ? 'open' : 'stopped' };
    }
  }
  return nearest;
}

/**
 * Amount of each term. Between two open strings only the plucking hand crosses, the left has nothing to carry over: half a
 * crossing and a quarter for each string skipped (doctrine; a line of open strings is played on them, common practice).
 */
export const stringTerms = {
  crossing: ({ steps, ends }: StringWay) => (steps === 0 ? 0 : ends === 'open' ? (1 + steps) / 4 : 1),
  skip: ({ steps, ends }: StringWay) => (ends === 'open' ? 0 : Math.max(0, steps - 1)),
};

/** Cost in milli-units. */
export function stringCost(weights: Weights, way: StringWay): number {
  return Math.round(weights.crossing * stringTerms.crossing(way) + weights.skip * stringTerms.skip(way));
}
