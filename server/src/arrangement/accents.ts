// Accents on the backbeat: the chop falls on 2 and 4, and a bass player who leans there drives a tune.
import { equal, sub } from '../score/fraction.ts';
import { backbeatsOf } from '../score/meter.ts';
import type { Voice } from '../score/types.ts';
import type { Edit } from '../text/span.ts';
import { countStart } from './melody.ts';
import { startOfMarks } from './pin-edits.ts';
import type { BassPart, PartNote, ScoreStage } from './types.ts';

const accentNames = ['>', 'accent', 'emphasis', 'marcato'];

/**
 * Edits that put `!>!` on plucked notes that begin on a backbeat (common practice: 2 and 4 of four, the second of two).
 * A hammered note is not accented: an accent is a pluck. What has an accent stays, so twice changes nothing.
 */
export function accentEdits(stage: ScoreStage, part: BassPart): readonly Edit[] {
  const voice = stage.score.voices.find((v) => v.id === part.voice);
  if (voice === undefined) return [];
  return part.notes.flatMap((note) => (isAccentable(note) && isBackbeat(voice, note) ? [accentEdit(stage, note)] : []));
}

function isAccentable(note: PartNote): boolean {
  const plucked = note.articulation === 'pluck' || note.articulation === 'scoop';
  const accented = note.note.marks.some((mark) => mark.kind === 'decoration' && accentNames.includes(mark.name));
  return plucked && !accented && note.note.kind === 'note';
}

function isBackbeat(voice: Voice, note: PartNote): boolean {
  const bar = voice.bars[note.note.bar];
  if (bar === undefined) return false;
  const from = sub(note.onset, countStart(voice, bar));
  return backbeatsOf(bar.meter).some((beat) => equal(from, beat));
}

function accentEdit(stage: ScoreStage, note: PartNote): Edit {
  const at = startOfMarks(stage.text, note, 'decorations');
  return { span: { from: at, to: at }, insert: '!>!' };
}
