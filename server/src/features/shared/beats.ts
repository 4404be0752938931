// Where in its bar a note falls, counted as players count.
import { compare, div, sub, toNumber } from '../../score/fraction.ts';
import { beatOf } from '../../score/index.ts';
import type { Bar, Fraction } from '../../score/types.ts';

/** The beat that a bar is counted in, in whole notes; null in free meter. */
export const barBeat = (bar: Pick<Bar, 'meter'>): Fraction | null => (bar.meter.kind === 'none' ? null : beatOf(bar.meter));

/** The part of a bar that a pickup lacks: counted as if it had gone before. */
export function lacking(bar: Bar, first: boolean): Fraction {
  const none = { num: 0, den: 1 };
  if (!first || bar.nominal === null || compare(bar.duration, bar.nominal) >= 0) return none;
  return sub(bar.nominal, bar.duration);
}

/** Beats from the start of the bar to an onset in it, as a number (0 on the first beat); null in free meter. */
export function beatsInto(bar: Bar, onset: Fraction, first: boolean): number | null {
  const beat = barBeat(bar);
  if (beat === null) return null;
  const into = sub(onset, bar.onset);
  const missing = lacking(bar, first);
  return toNumber(div(into, beat)) + toNumber(div(missing, beat));
}

/** `beat 2`, or for a note between beats what part of the beat has gone: `beat 2 and 1/2`. */
export function beatWords(beats: number): string {
  const whole = Math.floor(beats + 1e-9);
  const rest = beats - whole;
  if (rest < 1e-9) return `beat ${whole + 1}`;
  const found = [2, 3, 4, 6, 8, 12, 16].find((den) => Math.abs(rest * den - Math.round(rest * den)) < 1e-6);
  return found === undefined ? `after beat ${whole + 1}` : `beat ${whole + 1} and ${Math.round(rest * found)}/${found}`;
}
