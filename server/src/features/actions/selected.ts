// The notes a selection means: those it covers, or the one the caret touches.
import type { FingeredPart, PartNote } from '../../arrangement/types.ts';
import type { Score, ScoreNote } from '../../score/types.ts';
import type { Span } from '../../text/span.ts';

/** Whether a note belongs to the selection. */
const isSelected = (note: Span, selection: Span): boolean =>
  selection.from === selection.to
    ? note.from <= selection.from && selection.from <= note.to
    : note.from < selection.to && selection.from < note.to;

/** Written notes of all voices, graces included, in the order of the text. A caret between two notes means the one after it. */
export function selectedNotes(score: Score, selection: Span): readonly ScoreNote[] {
  const notes = score.voices.flatMap((voice) => voice.notes.filter((note) => isSelected(note, selection))).sort((a, b) => a.from - b.from);
  return selection.from === selection.to ? notes.slice(-1) : notes;
}

/** Indices in the part of the selected notes. */
export function selectedIndices({ part }: FingeredPart, selection: Span): readonly number[] {
  const indices = part.notes.flatMap((note: PartNote, i) => (isSelected(note.note, selection) ? [i] : []));
  return selection.from === selection.to ? indices.slice(-1) : indices;
}

/** The stretch from the first note to the end of the last; null without notes. */
export function spanOfNotes(notes: readonly Span[]): Span | null {
  const [first] = notes;
  return first === undefined ? null : { from: first.from, to: Math.max(...notes.map((note) => note.to)) };
}

/** `this note`, or `3 notes`. */
export const notesWords = (count: number): string => (count === 1 ? 'this note' : `${count} notes`);
