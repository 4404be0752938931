// Ranking the keys in which a melody lies well as a bass version.
import { type ArrangeTools, arrange } from './arrange.ts';
import { keyText, movedKey } from './compose.ts';
import { intervalFor } from './interval.ts';
import type { Plan, ScoreStage } from './types.ts';

/** One key for a version, with what decides. */
export interface KeyRank {
  readonly key: string;
  /** Semitones from the source's key. */
  readonly shift: number;
  /** Semitones that the phrases sound below the (shifted) source. */
  readonly below: readonly number[];
  /** Lowest and highest sounding pitch (MIDI). */
  readonly range: { readonly low: number; readonly high: number };
  readonly cost: number | null;
  readonly shifts: number;
  /** Share of notes on open strings, 0 to 1. */
  readonly open: number;
  readonly topTempo: Plan['topTempo'];
}

/** All twelve keys that can be arranged, the cheapest fingering first; unplayable ones last. */
export function registersOf(source: ScoreStage, version: 'low' | 'high', tools: ArrangeTools): readonly KeyRank[] {
  const ranks = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6].flatMap((shift) => rankOf(source, version, shift, tools) ?? []);
  return ranks.sort((a, b) => (a.cost ?? Number.POSITIVE_INFINITY) - (b.cost ?? Number.POSITIVE_INFINITY));
}

function rankOf(source: ScoreStage, version: 'low' | 'high', shift: number, tools: ArrangeTools): KeyRank | null {
  const made = arrange(source, { version, number: 1, keyShift: shift, tempo: null, thin: 'none', pins: 'none' }, tools);
  if (made.kind === 'impossible' || made.plan === null) return null;
  const { plan } = made;
  const sounding = plan.notes.flatMap((note) => note.sounding);
  const open = plan.notes.filter((note) => note.places[0]?.finger === '0').length;
  return {
    key: keyText(movedKey(source.score.key, intervalFor(source.score.key, shift))),
    shift,
    below: [...new Set(made.report.flatMap((note) => note.below ?? []))],
    range: { low: Math.min(...sounding), high: Math.max(...sounding) },
    cost: plan.cost,
    shifts: plan.shifts,
    open: Math.round((open / plan.notes.length) * 100) / 100,
    topTempo: plan.topTempo,
  };
}
