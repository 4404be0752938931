// All weights of the cost in one table, integer milli-units: 1000 is about one shift of two semitones.

/**
 * `fit`: learned from fingered passages (tests/fit/fit.ts), held-out sources judged. `doctrine`: set by the handbooks' rules and not
 * identifiable from those passages. `tie`: so small that they only decide between equals.
 */
export interface Weights {
  readonly note: number;
  readonly stopped: number;
  readonly dullness: number;
  readonly halfPosition: number;
  readonly extension: number;
  readonly height: number;
  readonly lowStringHigh: number;
  readonly fourHigh: number;
  readonly threeLow: number;
  readonly stretched: number;
  readonly neckHigh: number;
  readonly thumb: number;
  readonly thumbOffOctave: number;
  readonly thumbLow: number;
  readonly thumbLower: number;
  readonly thumbOnThird: number;
  readonly thumbOnFourth: number;
  readonly thumbSpread: number;
  readonly place: number;
  readonly distance: number;
  readonly beyondPivot: number;
  readonly leap: number;
  readonly haste: number;
  readonly thumbInOut: number;
  readonly crossing: number;
  readonly skip: number;
  readonly sameFinger: number;
  readonly changedFinger: number;
  readonly crawl: number;
}

export const weights: Weights = {
  note: 150, // zero point: the same for every note
  stopped: 150, // zero point of a stopped note
  dullness: 680, // fit
  halfPosition: 150, // fit
  extension: 900, // fit, at its bound: read it as 600 or more
  height: 50, // tie
  lowStringHigh: 100, // tie
  fourHigh: 800, // doctrine: 3 takes over from 4 at the octave
  threeLow: 500, // doctrine: 3 supports 4 and does not stand alone low on the neck
  stretched: 500, // doctrine
  neckHigh: 300, // doctrine
  thumb: 100, // doctrine
  thumbOffOctave: 60, // doctrine: the first frame learnt is at the octave
  thumbLow: 800, // doctrine: low thumb is a school
  thumbLower: 200, // doctrine
  thumbOnThird: 200, // doctrine
  thumbOnFourth: 400, // doctrine
  thumbSpread: 200, // doctrine
  place: 900, // fit
  distance: 20, // tie
  beyondPivot: 20, // tie
  leap: 300, // fit, weak
  haste: 150, // doctrine: rhythm is not in the passages
  thumbInOut: 300, // doctrine
  crossing: 410, // fit
  skip: 1070, // fit
  sameFinger: 160, // fit, weak
  changedFinger: 65, // fit, weak
  crawl: 100, // doctrine
};
