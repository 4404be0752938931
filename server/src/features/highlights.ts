// What belongs to the place of the caret: the other end of a slur, tie or repeat, or else the notes of the same pitch.
import type { ScoreNote, Voice } from '../score/types.ts';
import type { Offset, Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { scoreNoteAt } from './shared/notes.ts';

export interface Highlight extends Span {
  readonly kind: 'slur' | 'tie' | 'repeat' | 'pitch' | 'hand';
}

/** The question is an offset. */
export const highlights: Feature<'score', Offset, readonly Highlight[]> = {
  needs: 'score',
  answer({ score }, at) {
    for (const voice of score.voices) {
      const found = slurEnds(voice, at) ?? repeatEnds(voice, at);
      if (found !== null) return found;
    }
    const found = scoreNoteAt(score, at);
    return found === null ? [] : (tiedNotes(found.voice, found.note) ?? samePitch(found.voice, found.note));
  },
};

const touching = (span: Span, at: Offset): boolean => span.from <= at && at <= span.to;
const as = (kind: Highlight['kind'], spans: readonly Span[]): readonly Highlight[] => spans.map(({ from, to }) => ({ kind, from, to }));

/** Both brackets, when the caret stands at one and not on a note. */
function slurEnds(voice: Voice, at: Offset): readonly Highlight[] | null {
  const slur = voice.slurs.find(({ open, close }) => (open.from <= at && at < open.to) || (close.from < at && at <= close.to));
  return slur === undefined ? null : as('slur', [slur.open, slur.close]);
}

/** The bar line that opens the repeat and the one that closes it. */
function repeatEnds(voice: Voice, at: Offset): readonly Highlight[] | null {
  const bars = voice.bars;
  const here = bars.findIndex((bar) => bar.closedBy !== null && touching(bar.closedBy, at));
  const sign = bars[here]?.closedBy;
  if (!sign) return null;
  const closes = bars[here]!.endRepeats > 0;
  const opens = (bars[here + 1]?.startRepeats ?? 0) > 0;
  if (!closes && !opens) return null;
  const start = closes ? bars.slice(0, here + 1).findLastIndex((bar) => bar.startRepeats > 0) - 1 : here;
  const end = closes ? here : bars.findIndex((bar, i) => i > here && bar.endRepeats > 0);
  return as(
    'repeat',
    [bars[start]?.closedBy, bars[end]?.closedBy].filter((span) => span !== undefined && span !== null),
  );
}

/** All notes of a tie, when the note is in one. */
function tiedNotes(voice: Voice, note: ScoreNote): readonly Highlight[] | null {
  const before = voice.notes.filter((other) => other.heads.some((head) => head.tieTo !== null));
  const chain = new Set([note.id]);
  for (const other of [...before].reverse()) if (other.heads.some((head) => head.tieTo && chain.has(head.tieTo.note))) chain.add(other.id);
  for (const other of before) if (chain.has(other.id)) for (const head of other.heads) if (head.tieTo) chain.add(head.tieTo.note);
  return chain.size === 1
    ? null
    : as(
        'tie',
        voice.notes.filter((other) => chain.has(other.id)),
      );
}

function samePitch(voice: Voice, note: ScoreNote): readonly Highlight[] {
  const pitches = new Set(note.heads.map((head) => head.midi));
  return as(
    'pitch',
    voice.notes.filter((other) => other.heads.some((head) => pitches.has(head.midi))),
  );
}
