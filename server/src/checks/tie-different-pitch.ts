// tie.different-pitch: a tie to a note of another pitch, or to none: it can only be a slur, or a slip.
import type { MusicItem } from '../abc/tree/items.ts';
import type { TuneTree } from '../abc/tree/tree.ts';
import type { Score, ScoreNote, Voice } from '../score/types.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Check, Finding, Fix } from './check.ts';
import { finding } from './shared/finding.ts';
import { joinsOf } from './shared/joins.ts';

export const tieDifferentPitch: Check<'score'> = {
  codes: ['tie.different-pitch'],
  needs: 'score',
  severity: 'warning',
  find: (stage) => tieMarks(stage.tree).flatMap((mark) => findingAt(stage.score, mark) ?? []),
};

/** The places of all tie marks, relative to the tune. */
function tieMarks(tree: TuneTree): readonly Span[] {
  return tree.lines.flatMap(({ at, line }) => (line.kind === 'music' ? line.items.flatMap(tiesIn).map((span) => shifted(span, at)) : []));
}

const tiesIn = (item: MusicItem): readonly Span[] =>
  item.kind === 'tie' ? [item] : item.kind === 'chord' ? item.inner.flatMap(tiesIn) : [];

function findingAt(score: Score, mark: Span): Finding | null {
  const place = noteBefore(score, mark);
  if (place === null || isTied(place.note, mark)) return null;
  const next = place.voice.notes.find((note) => note.id > place.note.id && note.kind === 'note' && note.layer === place.note.layer);
  if (next === undefined || goesOnElsewhere(place.voice, place.note)) return null;
  const message = `This tie leads to a note of another pitch, so nothing is held. Slur the two notes if the second is to sound without a pluck, or take the tie out.`;
  const related = [
    { from: place.note.from, to: place.note.to, message: 'Tied from here' },
    { from: next.from, to: next.to, message: 'to here.' },
  ];
  return finding('tie.different-pitch', 'warning', mark, message, { related, fixes: fixes(place.note, next, mark) });
}

interface Placed {
  readonly voice: Voice;
  readonly note: ScoreNote;
}

/** The note whose tie mark stands at `mark`: the last that begins before it. */
function noteBefore(score: Score, mark: Span): Placed | null {
  let found: Placed | null = null;
  for (const voice of score.voices)
    for (const note of voice.notes) if (note.from < mark.from && (found === null || note.from > found.note.from)) found = { voice, note };
  return found;
}

/** Inside a chord a tie belongs to the head before it, after a chord or note to all heads. */
function isTied(note: ScoreNote, mark: Span): boolean {
  const heads = mark.to <= note.to ? note.heads.filter((head) => head.from < mark.from).slice(-1) : note.heads;
  return heads.some((head) => head.tieTo !== null);
}

/** At a repeat or an ending the note after the tie may be elsewhere in the text. */
const goesOnElsewhere = (voice: Voice, note: ScoreNote): boolean => {
  const isLast = !voice.notes.some((other) => other.id > note.id && other.bar === note.bar && other.kind === 'note');
  return isLast && joinsOf(voice.bars).some((join) => join.before.index === note.bar && join.kind !== 'section');
};

function fixes(note: ScoreNote, next: ScoreNote, mark: Span): readonly Fix[] {
  const cut = { span: { from: mark.from, to: mark.to }, insert: '' };
  const single = note.heads.length === 1 && next.heads.length === 1;
  const slur: Fix = {
    title: 'Slur the two notes',
    edits: [{ span: { from: note.from, to: note.from }, insert: '(' }, cut, { span: { from: next.to, to: next.to }, insert: ')' }],
  };
  return [{ title: 'Take the tie out', edits: [cut] }, ...(single ? [slur] : [])];
}
