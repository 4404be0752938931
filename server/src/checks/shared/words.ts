// Words and figures of messages: lengths, times, tempos and note values as players say them.
import type { PartTempo, PlanWindow } from '../../arrangement/types.ts';
import { mul, toText } from '../../score/fraction.ts';
import { noteValueName } from '../../score/note-values.ts';
import type { Fraction } from '../../score/types.ts';

/** A length in millimetres, whole: `158 mm`. */
export const mm = (length: number): string => `${Math.round(length)} mm`;

/** A time in milliseconds, whole: `110 ms`. */
export const ms = (time: number): string => `${Math.round(time)} ms`;

/** `1 note`, `2 notes`. */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** The name of a note value given in whole notes; the fraction itself where there is no name. */
export const noteValue = (length: Fraction): string => noteValueName(toText(length));

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
