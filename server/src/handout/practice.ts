// What to practise of a fingered tune: bars that ask most of the left hand, and tempos to climb by.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import { barNumber } from '../score/bar-numbers.ts';
import { UNNAMED_TEMPO } from '../score/conventions.ts';
import { toNumber } from '../score/fraction.ts';
import type { Voice } from '../score/types.ts';
import type { BarRange } from './bars.ts';
import type { HandoutTune } from './types.ts';

/** How much a note asks of the hand: a shift, by its way; a wide hand; thumb position. Judgements, to rank bars by. */
const weights = { shift: 1, perDecimetre: 1, open: 0.6, thumb: 0.8 } as const;

/** Bars that ask less are not worth singling out. */
const leastLoad = 1.5;

/** The stretches of two bars that ask most, at most `most`, in order; empty where nothing stands out. */
export function suggestedFocus(tune: HandoutTune, most: number): readonly BarRange[] {
  const plan = tune.plans[0];
  const voice = tune.score.voices.find((each) => each.id === plan?.voice);
  if (plan === undefined || voice === undefined) return [];
  const loads = barLoads(plan, voice);
  const pairs = loads.map((load, i) => ({ i, load: load + (loads[i + 1] ?? 0) })).sort((a, b) => b.load - a.load || a.i - b.i);
  const taken: number[] = [];
  for (const { i, load } of pairs) {
    const apart = taken.every((other) => Math.abs(other - i) > 1);
    if (taken.length < most && load >= leastLoad && apart) taken.push(i);
  }
  return taken
    .sort((a, b) => a - b)
    .map((i) => ({ first: barNumber(voice, i), last: barNumber(voice, Math.min(i + 1, loads.length - 1)) }));
}

function barLoads(plan: Plan, voice: Voice): readonly number[] {
  const bars = new Map(voice.notes.map((note) => [note.id, note.bar]));
  const loads = voice.bars.map(() => 0);
  for (const [i, note] of plan.notes.entries()) {
    const bar = bars.get(note.id);
    if (bar !== undefined) loads[bar] = loads[bar]! + loadOf(note, plan.notes[i - 1] ?? null);
  }
  return loads;
}

function loadOf(note: PlanNote, before: PlanNote | null): number {
  const frame = note.hand?.frame;
  const posture = frame === 'open' ? weights.open : frame === 'thumb' ? weights.thumb : 0;
  const way = note.shift ? Math.abs(mmOf(note) - mmOf(before ?? note)) / 100 : 0;
  return posture + (note.shift ? weights.shift + weights.perDecimetre * way : 0);
}

const mmOf = (note: PlanNote): number => note.places[0]?.mm ?? 0;

/** Beats a minute in the tune's beat; null without a tempo of its own. */
export function tuneTempo(tune: HandoutTune): { readonly beat: string; readonly bpm: number } | null {
  const planned = tune.plans.find((plan) => plan.tempo !== null)?.tempo;
  if (planned) return planned;
  const first = tune.played.tempos[0];
  return first ? { beat: first.beat.den === 1 ? `${first.beat.num}` : `${first.beat.num}/${first.beat.den}`, bpm: first.bpm } : null;
}

/** Used where a tune names no tempo. */
export const unnamedTempo = { beat: '1/4', bpm: UNNAMED_TEMPO } as const;

/** Four tempos from three quarters of the goal up to it; the goal is the tune's tempo, or what is comfortable if that is less. */
export function suggestedTempos(tune: HandoutTune): readonly number[] {
  const { bpm } = tuneTempo(tune) ?? unnamedTempo;
  const comfortable = Math.min(bpm, ...tune.plans.map((plan) => plan.topTempo.comfortable ?? bpm));
  return [...new Set([0.75, 0.83, 0.92, 1].map((share) => Math.max(1, Math.floor(comfortable * share))))];
}

/** Seconds a tune takes from its first note to its end, once through with its repeats. */
export function secondsOf(tune: HandoutTune): number {
  const tempos = tune.played.tempos;
  const first = { onset: 0, whole: unnamedTempo.bpm / 4 };
  const speeds = [first, ...tempos.map(({ onset, beat, bpm }) => ({ onset: toNumber(onset), whole: bpm * toNumber(beat) }))];
  const end = toNumber(tune.played.end);
  return speeds.reduce(
    (sum, { onset, whole }, i) => sum + (Math.max(0, Math.min(end, speeds[i + 1]?.onset ?? end) - onset) * 60) / whole,
    0,
  );
}

/** The bars of a part by its label (`B`); null if the tune has no such part. */
export function partBars(tune: HandoutTune, label: string): BarRange | null {
  const voice = tune.score.voices.find((each) => each.bars.length > 0);
  const index = voice?.parts.findIndex((part) => part.label === label) ?? -1;
  if (voice === undefined || index < 0) return null;
  const next = voice.parts[index + 1]?.bar ?? voice.bars.length;
  return { first: barNumber(voice, voice.parts[index]!.bar), last: barNumber(voice, Math.max(voice.parts[index]!.bar, next - 1)) };
}

/** The lowest and highest number of its bars. */
export function allBars(tune: HandoutTune): BarRange {
  const voice = tune.score.voices.find((each) => each.bars.length > 0);
  return voice ? { first: barNumber(voice, 0), last: barNumber(voice, voice.bars.length - 1) } : { first: 1, last: 1 };
}

/** `2:05`. */
export const clockText = (seconds: number): string =>
  `${Math.floor(Math.round(seconds) / 60)}:${String(Math.round(seconds) % 60).padStart(2, '0')}`;
