// Pitches as text: reading the letter and octave marks of a note where it stands, and writing them anew.
import type { Accidental, Letter } from '../abc/tree/items.ts';

/** Semitones of the natural letters above C. */
export const naturals: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
export const letters: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

const accidentals: Readonly<Record<number, Accidental>> = { [-2]: '__', [-1]: '_', 0: '=', 1: '^', 2: '^^' };

/** The accidental sign for semitones off the natural; null beyond double ones. */
export const accidentalFor = (alter: number): Accidental | null => accidentals[alter] ?? null;

/** Letter with octave marks: octave 4 is `C`, 5 `c`, 6 `c'`, 3 `C,`. */
export function pitchText(letter: Letter, octave: number): string {
  if (octave >= 5) return letter.toLowerCase() + "'".repeat(octave - 5);
  return letter + ','.repeat(4 - octave);
}

/** A pitch as it stands in the text at `at`: where it ends, and its signs. */
export interface PitchThere {
  readonly to: number;
  readonly accidental: string;
  readonly letter: Letter;
  /** Octave as written, before any `octave=`. */
  readonly octave: number;
}

/** Reads the pitch at a place of the text; null if none stands there (a macro's call). */
export function pitchAt(text: string, at: number): PitchThere | null {
  const match = /^(\^\^|\^|__|_|=)?([A-Ga-g])([,']*)/.exec(text.slice(at, at + 40));
  if (match === null) return null;
  const [whole, accidental = '', name = 'C', marks = ''] = match;
  const up = [...marks].reduce((sum, mark) => sum + (mark === "'" ? 1 : -1), 0);
  const upper = name.toUpperCase() as Letter;
  return { to: at + whole.length, accidental, letter: upper, octave: (name === upper ? 4 : 5) + up };
}
