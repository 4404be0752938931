// Accents that all fall on the backbeats, and miss none: said once in words, they need not be drawn at every note.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import { isOpeningPickup } from '../score/bar-numbers.ts';
import { compare, fraction, mul, sub, ZERO } from '../score/fraction.ts';
import type { Bar, Fraction, ScoreNote, Voice } from '../score/types.ts';
import type { HandoutTune } from './types.ts';

const accentNames = new Set(['>', 'accent', 'emphasis']);

/** A bar as it is counted for its backbeats (common practice): 2/2, 4/4 and 2/4 in four, 6/8 in two, 12/8 in four; other meters have none. */
function countOf({ meter }: Bar): { readonly beat: Fraction; readonly back: readonly number[] } | null {
  if (meter.kind === 'none') return null;
  const sum = meter.beats.reduce((a, b) => a + b, 0);
  if (meter.unit === 8 && sum === 6) return { beat: fraction(3, 8), back: [1] };
  if (meter.unit === 8 && sum === 12) return { beat: fraction(3, 8), back: [1, 3] };
  return sum === meter.unit || sum * 2 === meter.unit ? { beat: fraction(sum, meter.unit * 4), back: [1, 3] } : null;
}

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
  const first = countOf(voice.bars[0]!);
  if (!agrees || first === null) return null;
  return first.back.length === 1 ? 'Accents on the second beat.' : 'Accents on 2 and 4.';
}

export const isAccented = (note: ScoreNote): boolean => note.marks.some((mark) => mark.kind === 'decoration' && accentNames.has(mark.name));

/** A tied, hammered or glided note is not plucked. */
const isPlucked = (note: PlanNote | undefined): boolean => note !== undefined && (note.attack === 'pluck' || note.attack === 'scoop');

function isOnBackbeat(voice: Voice, note: ScoreNote): boolean {
  const bar = voice.bars[note.bar];
  const count = bar === undefined ? null : countOf(bar);
  if (bar === undefined || count === null) return false;
  const missing = isOpeningPickup(bar) && bar.nominal ? sub(bar.nominal, bar.duration) : ZERO;
  const start = sub(bar.onset, missing);
  return count.back.some((beat) => compare(sub(note.onset, start), mul(count.beat, fraction(beat, 1))) === 0);
}
