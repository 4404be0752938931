// Accents that all fall on the backbeats, and miss none: said once in words, they need not be drawn at every note.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import { isOpeningPickup } from '../score/bar-numbers.ts';
import { equal, sub, ZERO } from '../score/fraction.ts';
import { backbeatsOf } from '../score/meter.ts';
import type { ScoreNote, Voice } from '../score/types.ts';
import type { HandoutTune } from './types.ts';

const accentNames = new Set(['>', 'accent', 'emphasis']);

/** `Accents on 2 and 4.` where every plucked note on a backbeat has an accent and no other note has; else null. */
export function backbeatLegend(tune: HandoutTune): string | null {
  const legends = new Set(tune.plans.map((plan) => voiceLegend(tune, plan)));
  const [legend, ...others] = legends;
  return legend !== undefined && others.length === 0 ? legend : null;
}

function voiceLegend(tune: HandoutTune, plan: Plan): string | null {
  const voice = tune.score.voices.find((each) => each.id === plan.voice);
  const planned = new Map(plan.notes.map((note) => [note.id, note]));
  const notes = voice?.notes ?? [];
  if (voice === undefined || !notes.some(isAccented)) return null;
  const agrees = notes.every((note) => isAccented(note) === (isPlucked(planned.get(note.id)) && isOnBackbeat(voice, note)));
  const first = backbeatsOf(voice.bars[0]!.meter);
  if (!agrees || first.length === 0) return null;
  return first.length === 1 ? 'Accents on the second beat.' : 'Accents on 2 and 4.';
}

export const isAccented = (note: ScoreNote): boolean => note.marks.some((mark) => mark.kind === 'decoration' && accentNames.has(mark.name));

/** A tied, hammered or glided note is not plucked. */
const isPlucked = (note: PlanNote | undefined): boolean => note !== undefined && (note.attack === 'pluck' || note.attack === 'scoop');

function isOnBackbeat(voice: Voice, note: ScoreNote): boolean {
  const bar = voice.bars[note.bar];
  if (bar === undefined) return false;
  const missing = isOpeningPickup(bar) && bar.nominal ? sub(bar.nominal, bar.duration) : ZERO;
  const start = sub(bar.onset, missing);
  return backbeatsOf(bar.meter).some((beat) => equal(sub(note.onset, start), beat));
}
