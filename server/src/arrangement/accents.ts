// Accents on the backbeat: the chop falls on 2 and 4, and a bass player who leans there drives a tune.
import { compare, fraction, mul, sub } from '../score/fraction.ts';
import type { Bar, Fraction, Voice } from '../score/types.ts';
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

/** How a bar is counted for its backbeats: 2/2, 4/4 and 2/4 in four, 6/8 in two, 12/8 in four; other meters have none. */
function countOf(bar: Bar): { readonly beat: Fraction; readonly back: readonly number[] } | null {
  if (bar.meter.kind === 'none') return null;
  const sum = bar.meter.beats.reduce((a, b) => a + b, 0);
  const { unit } = bar.meter;
  if (unit === 8 && sum === 6) return { beat: fraction(3, 8), back: [1] };
  if (unit === 8 && sum === 12) return { beat: fraction(3, 8), back: [1, 3] };
  return sum === unit || sum * 2 === unit ? { beat: fraction(sum, unit * 4), back: [1, 3] } : null;
}

function isBackbeat(voice: Voice, note: PartNote): boolean {
  const bar = voice.bars[note.note.bar];
  const count = bar === undefined ? null : countOf(bar);
  if (bar === undefined || count === null) return false;
  const from = sub(note.onset, countStart(voice, bar));
  return count.back.some((beat) => compare(from, mul(count.beat, fraction(beat, 1))) === 0);
}

function accentEdit(stage: ScoreStage, note: PartNote): Edit {
  const at = startOfMarks(stage.text, note, 'decorations');
  return { span: { from: at, to: at }, insert: '!>!' };
}
