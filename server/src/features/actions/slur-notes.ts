// Joins two or three selected notes by a slur: one pluck, the rest hammered on or pulled off.
import type { PartNote, PartStage } from '../../arrangement/types.ts';
import type { Span } from '../../text/span.ts';
import type { Action } from './action.ts';

export const slurNotes: Action<'part'> = {
  id: 'slur-notes',
  needs: 'part',
  offers(stage, selection) {
    const notes = selectedRun(stage, selection);
    return notes === null ? [] : [{ variant: 'slur', title: titleOf(notes) }];
  },
  edits(stage, selection) {
    const notes = selectedRun(stage, selection);
    if (notes === null) return [];
    const from = startWithMarks(notes[0]!);
    const to = Math.max(...notes.map((note) => note.note.to));
    return [
      { span: { from, to: from }, insert: '(' },
      { span: { from: to, to }, insert: ')' },
    ];
  },
};

/** Two or three plucked single notes that follow each other, no pitch twice in a row; null for anything else. */
function selectedRun(stage: PartStage, selection: Span): readonly PartNote[] | null {
  for (const part of stage.parts) {
    if (part.kind !== 'bass') continue;
    const notes = part.notes.filter(({ note }) => note.from < selection.to && selection.from < note.to);
    const plain = notes.every((note) => note.articulation === 'pluck' && note.sounding.length === 1 && note.note.kind === 'note');
    const moves = notes.every((note, i) => note.sounding[0] !== notes[i - 1]?.sounding[0]);
    const slurred = stage.score.voices.some((voice) =>
      voice.slurs.some((slur) => notes.some(({ id }) => slur.first <= id && id <= slur.last)),
    );
    if (notes.length >= 2 && notes.length <= 3 && plain && moves && !slurred) return notes;
  }
  return null;
}

function titleOf(notes: readonly PartNote[]): string {
  const steps = notes.slice(1).map((note, i) => note.sounding[0]! - notes[i]!.sounding[0]!);
  if (steps.every((step) => step > 0)) return `Hammer on: one pluck for ${notes.length} notes`;
  return steps.every((step) => step < 0) ? `Pull off: one pluck for ${notes.length} notes` : `Slur: one pluck for ${notes.length} notes`;
}

/** Marks of the first note stay inside the slur. */
function startWithMarks({ note }: PartNote): number {
  const inline = note.marks.filter((mark) => mark.source === 'inline' && mark.kind === 'decoration').map((mark) => mark.from);
  return Math.min(note.from, ...inline);
}
