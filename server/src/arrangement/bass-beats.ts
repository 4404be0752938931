// The beats on which a bass plays in two-beat style: 1 and 3 of four, 1 and 2 of two, 1 of three (common practice).
import type { MeterValue } from '../abc/tree/fields.ts';
import { add, compare, fraction } from '../score/fraction.ts';
import type { Bar, Fraction, Voice } from '../score/types.ts';
import { countStart } from './melody.ts';
import { isPickup } from './sections.ts';

/** Where the bass plays in a bar, in whole notes from the tune's start; none in a pickup, which is the melody's alone. */
export function bassBeats(voice: Voice, bar: Bar): readonly Fraction[] {
  if (isPickup(voice, bar)) return [];
  const start = countStart(voice, bar);
  const end = add(bar.onset, bar.duration);
  return offsets(bar.meter)
    .map((offset) => add(start, offset))
    .filter((at) => compare(at, end) < 0);
}

/** From the bar's start: the starts of the groups of a meter that names them, else the halves of an even bar. */
function offsets(meter: MeterValue): readonly Fraction[] {
  const zero = fraction(0, 1);
  if (meter.kind === 'none') return [zero];
  const { beats, unit } = meter;
  if (beats.length > 1) return beats.map((_, i) => fraction(sum(beats.slice(0, i)), unit));
  const count = sum(beats);
  return count % 2 === 0 ? [zero, fraction(count / 2, unit)] : [zero];
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
