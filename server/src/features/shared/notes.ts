// Finding written notes by offset.
import type { Score, ScoreNote, Voice } from '../../score/types.ts';
import type { Offset } from '../../text/span.ts';

/** The note at an offset in any voice, graces included: the one that begins there before the one that ends there. */
export function scoreNoteAt(score: Score, at: Offset): { readonly voice: Voice; readonly note: ScoreNote } | null {
  const touched = score.voices.flatMap((voice) =>
    voice.notes.filter((note) => note.from <= at && at <= note.to).map((note) => ({ voice, note })),
  );
  return touched.find(({ note }) => at < note.to) ?? touched.at(-1) ?? null;
}
