// Chord symbols as a bass player reads them, where they stand in a voice.
import { readChordName } from '../score/chord-name.ts';
import type { Fraction, ScoreNote, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';

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
