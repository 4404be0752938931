// A note of a bass part with all that is known of its fingering.
import type { FingeredPart, PartNote, PlanNote, PlanStage } from '../../arrangement/types.ts';
import type { HandPlace } from '../../fingering/types.ts';
import type { Offset } from '../../text/span.ts';

/** A note with its part and its index there (the same in part, task and plan). */
export interface PlannedNote {
  readonly fingered: FingeredPart;
  readonly index: number;
  readonly note: PartNote;
  readonly plan: PlanNote;
}

export function plannedNote(fingered: FingeredPart, index: number): PlannedNote | null {
  const note = fingered.part.notes[index];
  const plan = fingered.plan.notes[index];
  return note === undefined || plan === undefined ? null : { fingered, index, note, plan };
}

/** The bass note at an offset: the one touched, a tied continuation included; null if there is none. */
export function plannedNoteAt(stage: PlanStage, at: Offset): PlannedNote | null {
  const hits = stage.fingered.flatMap((fingered) => {
    const ids = idsAt(fingered, stage, at);
    const index = fingered.part.notes.findIndex((note) => ids.has(note.id) || note.tied.some((id) => ids.has(id)));
    return plannedNote(fingered, index) ?? [];
  });
  return hits[0] ?? null;
}

function idsAt(fingered: FingeredPart, stage: PlanStage, at: Offset): ReadonlySet<number> {
  const voice = stage.score.voices.find((v) => v.id === fingered.part.voice);
  const touched = (voice?.notes ?? []).filter((note) => note.from <= at && at <= note.to);
  const best = touched.find((note) => at < note.to) ?? touched.at(-1);
  return new Set(best === undefined ? [] : [best.id]);
}

/** The hand at or before a note of the plan; null before the first stopped note. */
export function handBefore(fingered: FingeredPart, index: number): HandPlace | null {
  for (let i = index - 1; i >= 0; i--) {
    const hand = fingered.plan.notes[i]?.hand;
    if (hand) return hand;
  }
  return null;
}

/** The next note that asks something of the hand. */
export function nextStopped(fingered: FingeredPart, index: number): PlannedNote | null {
  for (let i = index + 1; i < fingered.plan.notes.length; i++) {
    const next = plannedNote(fingered, i);
    if (next?.plan.places.some((place) => place.finger !== '0')) return next;
  }
  return null;
}

export const sameHand = (a: HandPlace | null, b: HandPlace | null): boolean =>
  a !== null && b !== null && a.frame === b.frame && a.stop === b.stop;
