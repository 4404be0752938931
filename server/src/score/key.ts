// Key signatures: what each letter is altered by.
import type { KeyValue, Mode } from '../abc/tree/fields.ts';
import type { Accidental, Letter } from '../abc/tree/items.ts';

/** Letters in the order of the scale from C; an index into signatures. */
export const LETTERS = 'CDEFGAB';

/** Semitones above C of each letter. */
export const SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Letters in the order in which sharps are added. */
const SHARP_ORDER = 'FCGDAEB';

/** Fifths that a mode's signature lies above that of the major key on the same tonic. */
const MODE_FIFTHS: Readonly<Record<Mode, number>> = {
  lydian: 1,
  major: 0,
  mixolydian: -1,
  dorian: -2,
  minor: -3,
  phrygian: -4,
  locrian: -5,
  none: 0,
  explicit: 0,
  highland: 0,
};

export const alterOf = (accidental: Accidental): number => ACCIDENTAL_ALTER[accidental];

const ACCIDENTAL_ALTER: Readonly<Record<Accidental, number>> = { __: -2, _: -1, '=': 0, '^': 1, '^^': 2 };

/** Sharps (or, negative, flats) of the key's tonic and mode, its own accidentals left out. */
export function fifthsOf(key: KeyValue): number {
  if (!key.tonic || key.mode === 'explicit') return 0;
  return SHARP_ORDER.indexOf(key.tonic.letter) - 1 + 7 * key.tonic.alter + MODE_FIFTHS[key.mode];
}

/** What each letter is altered by in this key, in semitones, C first. */
export function signatureOf(key: KeyValue): readonly number[] {
  const fifths = fifthsOf(key);
  const signature = Array.from(LETTERS, (letter) => Math.floor((fifths + 6 - SHARP_ORDER.indexOf(letter)) / 7));
  for (const { letter, accidental } of key.accidentals) signature[letterIndex(letter)] = alterOf(accidental);
  return signature;
}

export const letterIndex = (letter: Letter): number => LETTERS.indexOf(letter);
