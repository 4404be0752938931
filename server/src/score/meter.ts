// Meters: how long a bar is, how notes are counted in it.
import type { MeterValue } from '../abc/tree/fields.ts';
import { COMPOUND_BEATS } from './conventions.ts';
import { compare, div, fraction, mul } from './fraction.ts';
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

/** Six, nine, twelve ... eighths or shorter: beats of three (common practice). */
export function hasBeatsOfThree(meter: MeterValue): boolean {
  if (meter.kind === 'none') return false;
  const beats = numerator(meter.beats);
  return meter.unit >= 8 && beats > 3 && beats % 3 === 0;
}

/**
 * The beat that a meter is counted in, in whole notes (common practice): half notes in cut time and 2/2, dotted quarters in 6/8, 9/8 and
 * 12/8, else the meter's unit; quarters in free meter. A slow 6/8, whose tempo is told in eighths, is counted in eighths.
 */
export function beatOf(meter: MeterValue, tempo: Fraction | null = null): Fraction {
  if (meter.kind === 'none') return fraction(1, 4);
  const unit = fraction(1, meter.unit);
  const slow = tempo !== null && compare(tempo, unit) === 0;
  return hasBeatsOfThree(meter) && !slow ? fraction(3, meter.unit) : unit;
}

/**
 * The step in which backbeats are counted, in whole notes (common practice): the beat, but a fourth of the bar in 2/4, 2/2, cut time and
 * 8/8, which are counted in four for them.
 */
export function stepOfFour(meter: MeterValue): Fraction {
  if (meter.kind === 'none' || hasBeatsOfThree(meter)) return beatOf(meter);
  const sum = numerator(meter.beats);
  const inFour = sum === 2 || sum === meter.unit || sum * 2 === meter.unit;
  return inFour ? fraction(sum, 4 * meter.unit) : beatOf(meter);
}

/** Where the backbeats of a bar fall, in whole notes from its start: on 2 and 4 of four, on the second of two; none in other meters. */
export function backbeatsOf(meter: MeterValue): readonly Fraction[] {
  const length = barLength(meter);
  if (length === null) return [];
  const step = stepOfFour(meter);
  const steps = div(length, step);
  if (steps.den !== 1 || (steps.num !== 2 && steps.num !== 4)) return [];
  return steps.num === 2 ? [step] : [step, mul(step, fraction(3, 1))];
}

const THREE_QUARTERS = fraction(3, 4);

/** The unit note length where L: is not given (3.1.7): 1/16 in meters below 3/4, else 1/8. */
export function defaultUnit(meter: MeterValue): Fraction {
  const length = barLength(meter);
  return length && compare(length, THREE_QUARTERS) < 0 ? fraction(1, 16) : fraction(1, 8);
}
