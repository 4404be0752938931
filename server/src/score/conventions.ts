// The points on which the standard is volatile or silent, one constant each. `server/docs/standard.md` lists them.

/** How far an accidental holds in its bar where the tune says nothing: the text's default (11.3) is every octave of the letter. */
export const ACCIDENTALS_HOLD: AccidentalReach = 'pitch';

/** `octave`: the same octave only; `pitch`: all octaves; `not`: only its own note. */
export type AccidentalReach = 'octave' | 'pitch' | 'not';

/** A whole-bar rest in free meter lasts this many whole notes. */
export const FREE_BAR_REST = 1;

/** Numerators of compound meters, where a 5-, 7- or 9-tuplet is played in the time of three (4.13). */
export const COMPOUND_BEATS: readonly number[] = [6, 9, 12];

/** Tuplets inside tuplets: deeper ones change nothing. */
export const DEEPEST_TUPLETS = 4;

/** A tune played out is cut off at this many bars of a voice: repeats of repeats could ask for any number. */
export const MOST_PLAYED_BARS = 20_000;

/** The longest that a grace note sounds, in milliseconds (assumed; the standard leaves it to the program, 4.12). */
export const LONGEST_GRACE = 80;

/** Where a tune names no tempo: quarter notes a minute, a walking pace (our choice). */
export const UNNAMED_TEMPO = 100;
