// The instrument and the hand as the player states them, and as the engine uses them.

/** One string: its name (`G`, `D`, `A`, `E`, `C`, `B`), open pitch as sounding MIDI, and stops below the nut (C extension: -4). */
export interface StringSpec {
  readonly name: string;
  readonly open: number;
  readonly lowestStop: number;
}

/** Strings from the highest to the lowest, as tab lines run from the top. */
export interface Tuning {
  readonly name: string;
  readonly strings: readonly StringSpec[];
}

export type School = 'closed' | 'open' | 'pivot' | 'one-three-four' | 'fist';
export type HandSize = 'small' | 'medium' | 'large';

/** Reach on the string in mm, comfortable and extended (shared by trade facts section 3: a judgement, not a measurement). */
export interface HandSpans {
  readonly oneFour: { readonly comfortable: number; readonly extended: number };
  readonly thumbThree: { readonly comfortable: number; readonly extended: number };
}

/** All that decides what can be played: instrument, hand, school, right hand. */
export interface Setup {
  readonly tuning: Tuning;
  /** Vibrating string length in mm, 800 to 1150. */
  readonly mensur: number;
  readonly hand: HandSize | HandSpans;
  /** Highest stop used, semitones above the open string. */
  readonly top: number;
  readonly school: School;
  /** Lowest stop of the thumb in thumb position. */
  readonly thumb: number;
  /** Comfortable attacks a second. */
  readonly pluck: number;
  /** Stop of finger 1 at which the thumb meets the neck heel: 7 (D-neck) or 8 (E-flat-neck). */
  readonly neckHeel: number;
}

/** A problem with a setting: which key, what was given, what is allowed. */
export interface SetupProblem {
  readonly key: string;
  readonly message: string;
  readonly allowed: readonly string[];
}

/** Reach on the string in mm, resolved from the setup. */
export interface Reach {
  readonly comfortable: { readonly oneFour: number; readonly thumbThree: number };
  readonly extended: { readonly oneFour: number; readonly thumbThree: number };
}

/** Where a finger may stand: `offset` semitones above the place of the hand, from place `fromPlace` to place `toPlace`, up to stop `toStop`. `limit` is the widest span in mm between the hand's place and the finger; null where none is asked. */
export interface FrameRule {
  readonly kind: HandKind;
  readonly finger: '1' | '2' | '3' | '4' | 'T';
  readonly offset: number;
  readonly fromPlace: number;
  readonly toPlace: number;
  readonly toStop: number;
  readonly limit: number | null;
}

export type HandKind = 'neck' | 'thumb';

/** A hand: `place` is the stop of finger 1 (neck) or of the thumb (thumb position). */
export interface Hand {
  readonly kind: HandKind;
  readonly place: number;
}

/** Hard limits as numbers; times in microseconds. */
export interface Limits {
  /** Acceleration of the hand in m/s², at the limit and within comfort. */
  readonly acceleration: { readonly limit: number; readonly comfortable: number };
  /** A stopped note is held for this share of its length before the hand may leave, and at least `holdLeast`. */
  readonly holdShare: number;
  readonly holdLeast: number;
  readonly thumbInOut: number;
  readonly pivotMm: number;
  readonly pivotShare: number;
  readonly hop: number;
}

/** Setup as the engine uses it. */
export interface Player {
  readonly setup: Setup;
  readonly reach: Reach;
  readonly frames: readonly FrameRule[];
  readonly limits: Limits;
}
