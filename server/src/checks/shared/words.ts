// Words and figures of messages: lengths, times, tempos, note values and bar numbers as players say them.
import type { PartTempo, PlanWindow } from '../../arrangement/types.ts';
import { compare, mul, toText } from '../../score/fraction.ts';
import type { Fraction, Score, Voice } from '../../score/types.ts';

/** A length in millimetres, whole: `158 mm`. */
export const mm = (length: number): string => `${Math.round(length)} mm`;

/** A time in milliseconds, whole: `110 ms`. */
export const ms = (time: number): string => `${Math.round(time)} ms`;

/** `1 note`, `2 notes`. */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

const noteValues: Readonly<Record<string, string>> = {
  '1': 'whole note',
  '1/2': 'half note',
  '1/4': 'quarter note',
  '1/8': 'eighth note',
  '1/16': 'sixteenth note',
  '3/2': 'dotted whole note',
  '3/4': 'dotted half note',
  '3/8': 'dotted quarter note',
  '3/16': 'dotted eighth note',
};

/** The name of a note value given in whole notes; the fraction itself where there is no name. */
export const noteValue = (length: Fraction): string => noteValues[toText(length)] ?? `${toText(length)} note`;

/** A length in the unit of the meter, as in `7/8` for seven eighths; `unit` is the meter's lower number. */
export function inUnits(length: Fraction, unit: number): string {
  const whole = mul(length, { num: unit, den: 1 });
  return whole.den === 1 ? `${whole.num}/${unit}` : toText(length);
}

/** Beats a minute after slowing down by `factor` (over 1), rounded down so that the stated tempo holds. */
export const slowed = (tempo: PartTempo, factor: number): number => Math.floor(tempo.bpm / factor + 1e-6);

/** The tempo a part is judged by, and at which it would do: `half note = 105 instead of 120`. */
export const slowerTempo = (tempo: PartTempo, factor: number): string =>
  `${noteValue(tempo.beat)} = ${slowed(tempo, factor)} instead of ${tempo.bpm}`;

/** What slowing down does for a window, as a sentence. */
export function slowdownSentence(window: Pick<PlanWindow, 'slowdown'>, tempo: PartTempo | null): string {
  if (window.slowdown === null) return 'No slower tempo helps.';
  if (tempo === null) return `It would need ${window.slowdown.toFixed(2)} times the time.`;
  return `It can be played at ${slowerTempo(tempo, window.slowdown)}.`;
}

/** Whether a voice begins with a pickup: a first bar shorter than its meter asks for. */
export function beginsWithPickup(voice: Voice): boolean {
  const first = voice.bars[0];
  return first !== undefined && first.nominal !== null && compare(first.duration, first.nominal) < 0;
}

/** The number players give to the bar at `index`: a pickup is bar 0, the first full bar is 1. */
export const barNumber = (voice: Voice, index: number): number => (beginsWithPickup(voice) ? index : index + 1);

/** The number of the bar at a place of the tune; null in the header and between bars. */
export function barAt(score: Score, at: number): number | null {
  for (const voice of score.voices) {
    const bar = voice.bars.find((b) => b.from <= at && at < b.to);
    if (bar !== undefined) return barNumber(voice, bar.index);
  }
  return null;
}
