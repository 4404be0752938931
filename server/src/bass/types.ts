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
