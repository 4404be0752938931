// Meters: how long a bar is, how notes are counted in it.
import type { MeterValue } from '../abc/tree/fields.ts';
import { COMPOUND_BEATS } from './conventions.ts';
import { compare, fraction } from './fraction.ts';
import type { Fraction } from './types.ts';

/** Length of a bar in whole notes; null in free meter. */
export function barLength(meter: MeterValue): Fraction | null {
  return meter.kind === 'none' ? null : fraction(numerator(meter.beats), meter.unit);
}

const numerator = (beats: readonly number[]): number => beats.reduce((sum, n) => sum + n, 0);

/** 6/8, 9/8, 12/8 and their like. */
export function isCompound(meter: MeterValue): boolean {
  return meter.kind === 'time' && COMPOUND_BEATS.includes(numerator(meter.beats));
}

const THREE_QUARTERS = fraction(3, 4);

/** The unit note length where L: is not given (3.1.7): 1/16 in meters below 3/4, else 1/8. */
export function defaultUnit(meter: MeterValue): Fraction {
  const length = barLength(meter);
  return length && compare(length, THREE_QUARTERS) < 0 ? fraction(1, 16) : fraction(1, 8);
}
