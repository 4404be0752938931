// Chord symbols as a bass player reads them: the root, the note to play on it, and the fifth above.
import type { Letter } from '../abc/tree/items.ts';
import type { Fraction, ScoreNote, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import type { SpelledPitch } from './interval.ts';

/** A pitch without its octave. */
export type PitchName = Pick<SpelledPitch, 'letter' | 'alter'>;

export interface ChordName {
  readonly root: PitchName;
  /** The bass note: the root, or what stands after a stroke. */
  readonly bass: PitchName;
  /** Semitones from the root to the chord's fifth: 7, in a diminished chord 6, in an augmented one 8. */
  readonly fifth: 6 | 7 | 8;
  readonly minor: boolean;
}

/** What may follow a root, so that a word ("Fine", "Break") is not read as a chord (the standard: type, then an optional bass note). */
const quality = /^(?:maj|min|dim|aug|sus|add|alt|m|M|[-+°øo^#b\d(),])*$/;

/** A chord symbol read; `none` where it says that no chord sounds; null for other words. */
export function readChordName(text: string): ChordName | 'none' | null {
  if (/^\(?N\.? ?C\.?\)?$/i.test(text.trim())) return 'none';
  const match = /^\(?([A-G])([#b]?)([^/]*?)(?:\/([A-Ga-g])([#b]?))?\)?$/.exec(text.trim());
  if (match === null || !quality.test(match[3]!)) return null;
  const root = pitchName(match[1]!, match[2]!);
  const bass = match[4] === undefined ? root : pitchName(match[4].toUpperCase(), match[5] ?? '');
  const kind = match[3]!;
  const fifth = /dim|°|ø|^o|b5|-5/.test(kind) ? 6 : /aug|^\+|#5|\+5/.test(kind) ? 8 : 7;
  return { root, bass, fifth, minor: /^(?:m(?!aj)|-)/.test(kind) };
}

const pitchName = (letter: string, sign: string): PitchName => ({
  letter: letter as Letter,
  alter: sign === '#' ? 1 : sign === 'b' ? -1 : 0,
});

/** A chord where it is written. `suggested`: by an annotation `"^?D"`, which any reader of the standard prints as text. */
export interface WrittenChord extends Span {
  readonly bar: number;
  readonly onset: Fraction;
  /** The chord's name alone. */
  readonly text: string;
  readonly suggested: boolean;
}

/** The text of a suggestion's annotation. */
export const suggestionText = (name: string): string => `^?${name}`;

/** The chords written over a voice's notes, in order; those that no one can read as a chord are left out. */
export const chordsOf = (voice: Voice): readonly WrittenChord[] => voice.notes.flatMap(chordsOn);

function chordsOn(note: ScoreNote): readonly WrittenChord[] {
  return note.marks.flatMap((mark): readonly WrittenChord[] => {
    if (mark.kind === 'decoration' || mark.source !== 'inline') return [];
    const suggested = mark.kind === 'annotation';
    if (suggested && !mark.text.startsWith('?')) return [];
    const text = suggested ? mark.text.slice(1) : mark.text;
    if (readChordName(text) === null) return [];
    return [{ from: mark.from, to: mark.to, bar: note.bar, onset: note.onset, text, suggested }];
  });
}
