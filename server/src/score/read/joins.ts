// What joins notes: ties and slurs.
import type { Offset, Span } from '../../text/span.ts';
import { reportAt, type TuneState } from './tune-state.ts';
import type { NoteDraft, VoiceState } from './voice-state.ts';

/** Joins tied heads to heads of the same pitch. A head without an accidental takes the tied head's, over a bar line too. */
export function endTies(voice: VoiceState, before: NoteDraft, note: NoteDraft): void {
  voice.tied[voice.layer] = null;
  for (const from of before.heads) {
    if (!from.tieMark) continue;
    const index = note.heads.findIndex(
      (to) => !to.tied && to.letter === from.letter && to.octave === from.octave && (to.accidental === null || to.midi === from.midi),
    );
    const to = note.heads[index];
    if (!to) continue;
    to.alter = from.alter;
    to.written = from.written;
    to.midi = from.midi;
    to.tied = true;
    from.tieTo = { note: note.id, head: index };
  }
}

/** A tie sign after the note just read: all its heads are tied. */
export function addTie(tune: TuneState, voice: VoiceState, span: Span): void {
  const note = voice.last;
  if (!note || !('heads' in note)) {
    reportAt(tune, 'text.tie-without-note', span);
    return;
  }
  if (note.to < span.from && voice.spaceTo === span.from) reportAt(tune, 'text.tie-spaced', span);
  for (const head of note.heads) head.tieMark = span;
  voice.tied[note.layer] = note;
}

export function openSlur(voice: VoiceState, dotted: boolean, at: Offset, span: Span): void {
  voice.slursToOpen.push({ dotted, open: { from: at + span.from, to: at + span.to } });
}

export function takeSlurs(voice: VoiceState, first: NoteDraft): void {
  if (voice.slursToOpen.length === 0) return;
  for (const slur of voice.slursToOpen) voice.openSlurs.push({ ...slur, first });
  voice.slursToOpen = [];
}

/** Ends the slur opened last at the note read last. */
export function closeSlur(tune: TuneState, voice: VoiceState, at: Offset, span: Span): void {
  const close = { from: at + span.from, to: at + span.to };
  const slur = voice.openSlurs.pop();
  const last = voice.notes.at(-1);
  if (!slur || !last) {
    reportAt(tune, 'text.slur-unopened', close);
    return;
  }
  voice.slurs.push({ first: slur.first.id, last: last.id, dotted: slur.dotted, open: slur.open, close });
}

/** The music has ended: slurs still open are reported. */
export function reportOpenSlurs(tune: TuneState, voice: VoiceState): void {
  for (const { open } of [...voice.openSlurs, ...voice.slursToOpen]) reportAt(tune, 'text.slur-unclosed', open);
}
