// Words for the terms of the cost, and a line of the greatest of them.
import type { TermCost } from '../../fingering/explain.ts';

const termWords: Readonly<Record<TermCost['term'], string>> = {
  note: 'notes',
  stopped: 'stopped notes',
  dullness: 'dull high stops',
  halfPosition: 'half position',
  extension: 'stretch of finger 4',
  height: 'height',
  lowStringHigh: 'height on a low string',
  fourHigh: 'finger 4 high up',
  threeLow: 'finger 3 low down',
  stretched: 'stretch of finger 2 or 3',
  neckHigh: 'height of the hand',
  thumb: 'thumb position',
  thumbOffOctave: 'thumb off the octave',
  thumbLow: 'low thumb',
  thumbLower: 'lower thumb',
  thumbOnThird: 'thumb on the third string',
  thumbOnFourth: 'thumb on a low string',
  thumbSpread: 'spread of the thumb hand',
  place: 'change of place',
  distance: 'distance',
  beyondPivot: 'beyond a pivot',
  leap: 'leap',
  haste: 'haste',
  thumbInOut: 'thumb in or out',
  crossing: 'string change',
  skip: 'string skipped',
  sameFinger: 'same finger over a shift',
  changedFinger: 'change of finger',
  crawl: 'crawling finger',
};

const mostNamed = 3;
const leastNamed = 50;

/** `change of place +0.9, string change −0.4`: the greatest terms in shifts, those of a twentieth of a shift and more; empty where there are none. */
export function termLine(terms: readonly TermCost[]): string {
  return terms
    .filter(({ cost }) => Math.abs(cost) >= leastNamed)
    .slice(0, mostNamed)
    .map(({ term, cost }) => `${termWords[term]} ${cost > 0 ? '+' : '−'}${(Math.abs(cost) / 1000).toFixed(1)}`)
    .join(', ');
}
