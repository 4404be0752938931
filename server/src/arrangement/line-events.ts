// A bar of an arranged line as notes and rests with lengths that notes can have: ties over bar lines, tuplets, tied parts.
import { add, compare, div, fraction, mul, sub, ZERO } from '../score/fraction.ts';
import type { Bar, Fraction } from '../score/types.ts';
import type { SpelledPitch } from './interval.ts';
import type { Melody } from './melody.ts';
import type { Placed } from './thinning.ts';

export type LineEvent =
  | { readonly kind: 'rest'; readonly onset: Fraction; readonly duration: Fraction }
  | {
      readonly kind: 'tone';
      readonly onset: Fraction;
      readonly duration: Fraction;
      readonly spelled: SpelledPitch;
      readonly sounding: number;
      readonly slur: Placed['slur'];
      /** Goes on in the next bar. */
      readonly tied: boolean;
    };

/** What sounds and rests in a bar, in order; a tone over the bar line is cut there and tied. */
export function eventsOfBar(melody: Melody, line: readonly Placed[], bar: Bar): readonly LineEvent[] {
  const end = add(bar.onset, bar.duration);
  const tones = line.flatMap((placed): readonly LineEvent[] => {
    const from = later(placed.tone.onset, bar.onset);
    const stop = add(placed.tone.onset, placed.duration);
    const to = compare(stop, end) > 0 ? end : stop;
    if (compare(to, from) <= 0) return [];
    const first = compare(placed.tone.onset, bar.onset) >= 0;
    const { spelled } = placed.tone;
    const slur = first ? placed.slur : 'none';
    return [{ kind: 'tone', onset: from, duration: sub(to, from), spelled, sounding: placed.sounding, slur, tied: compare(stop, end) > 0 }];
  });
  const rests = melody.rests
    .filter((rest) => rest.bar === bar.index)
    .map(({ onset, duration }): LineEvent => ({ kind: 'rest', onset, duration }));
  return [...tones, ...rests].sort((a, b) => compare(a.onset, b.onset));
}

const later = (a: Fraction, b: Fraction): Fraction => (compare(a, b) < 0 ? b : a);

/** A tuplet sign to stand before an event, and the lengths of the tied notes that make it up (nearly always one). */
export interface EventLength {
  readonly tuplet: string;
  readonly texts: readonly string[];
}

/** Lengths in units of `unit`; runs that no plain lengths make are tuplets. */
export function lengthsOf(events: readonly LineEvent[], unit: Fraction): readonly EventLength[] {
  const lengths: EventLength[] = [];
  for (let i = 0; i < events.length; ) {
    const odd = oddPart(events[i]!.duration.den);
    const count = odd === 1 ? 1 : tupletCount(events.slice(i));
    const squeeze = odd === 1 ? null : { p: odd, q: 2 ** Math.floor(Math.log2(odd)) };
    events.slice(i, i + count).forEach((event, k) => {
      const length = squeeze === null ? event.duration : mul(event.duration, fraction(squeeze.p, squeeze.q));
      const sign = squeeze === null || k > 0 ? '' : tupletSign(squeeze.p, squeeze.q, count);
      lengths.push({ tuplet: sign, texts: parts(length).map((part) => lengthText(div(part, unit))) });
    });
    i += count;
  }
  return lengths;
}

const tupletSign = (p: number, q: number, count: number): string => (p === 3 && count === 3 ? '(3' : `(${p}:${q}:${count}`);

function oddPart(n: number): number {
  let odd = n;
  while (odd % 2 === 0) odd /= 2;
  return odd;
}

/** Events from the first on whose durations together are plain again. */
function tupletCount(events: readonly LineEvent[]): number {
  let sum = ZERO;
  for (let i = 0; i < events.length; i++) {
    sum = add(sum, events[i]!.duration);
    if (oddPart(sum.den) === 1) return i + 1;
  }
  return events.length;
}

/** A length as a sum of lengths that notes can have: 1, 3 or 7 of a power of two, the longest first. */
function parts(length: Fraction): readonly Fraction[] {
  const { num, den } = length;
  if (oddPart(den) !== 1 || num <= 0) return [length];
  const odd = oddPart(num);
  if (odd === 1 || odd === 3 || odd === 7) return [length];
  const top = 2 ** Math.floor(Math.log2(num));
  return [fraction(top, den), ...parts(fraction(num - top, den))];
}

function lengthText({ num, den }: Fraction): string {
  if (den === 1) return num === 1 ? '' : String(num);
  if (num === 1 && den === 2) return '/';
  return `${num === 1 ? '' : num}/${den}`;
}
