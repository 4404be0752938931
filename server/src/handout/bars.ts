// Bars as a player counts and claps them: numbers, pickups, beats.

import { isOpeningPickup } from '../score/bar-numbers.ts';
import { add, compare, fraction, mul, sub, ZERO } from '../score/fraction.ts';
import type { Bar, Fraction } from '../score/types.ts';

/** Bars by the numbers a player gives them, both included. */
export interface BarRange {
  readonly first: number;
  readonly last: number;
}

/** `bar 3`, `bars 3-4`. */
export const barsName = ({ first, last }: BarRange): string => (first === last ? `bar ${first}` : `bars ${first}-${last}`);

/**
 * The beat of a bar in whole notes, by the meter (common practice): three-part beats in 6/8, 9/8, 12/8, the half note in cut time, else the meter's unit.
 */
export function beatOf(bar: Bar): Fraction {
  const { meter } = bar;
  if (meter.kind === 'none') return fraction(1, 4);
  if (meter.sign === 'C|') return fraction(1, 2);
  const beats = meter.beats.reduce((sum, n) => sum + n, 0);
  const compound = meter.unit >= 8 && beats % 3 === 0 && (beats > 3 || meter.unit > 8);
  return fraction(compound ? 3 : 1, meter.unit);
}

/** Onsets of the beats from a bar's start, with their index in the full bar; a pickup's beats are the last of its bar. */
export function beatsIn(bar: Bar): readonly { readonly at: Fraction; readonly beat: number }[] {
  const beat = beatOf(bar);
  const missing = isOpeningPickup(bar) && bar.nominal ? sub(bar.nominal, bar.duration) : ZERO;
  const found: { at: Fraction; beat: number }[] = [];
  for (let index = 0, at = ZERO; compare(at, add(missing, bar.duration)) < 0 && index < 64; index++, at = mul(beat, fraction(index, 1))) {
    if (compare(at, missing) >= 0) found.push({ at: sub(at, missing), beat: index });
  }
  return found;
}
