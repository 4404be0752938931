// How a tune played out is counted: where its beats fall and which of the bar each is, pickups and changes of meter included.
import type { MeterValue } from '../abc/tree/fields.ts';
import { isOpeningPickup } from './bar-numbers.ts';
import { add, compare, div, equal, fraction, mul, sub, toNumber, ZERO } from './fraction.ts';
import { barLength, beatOf, stepOfFour } from './meter.ts';
import type { Bar, Fraction, Played, Score, Tempo } from './types.ts';

/** One way of counting, in whole notes of played-out time. It holds until the next one begins. */
export interface Count {
  readonly from: Fraction;
  /** The start of a bar as it is counted: at or before `from`, for a pickup's beats are the last of its bar. */
  readonly bar: Fraction;
  readonly beat: Fraction;
  /** Beats a bar. */
  readonly perBar: number;
  /** What "on 1 and 3" and "on 2 and 4" are counted in (see `stepOfFour`). */
  readonly step: Fraction;
}

/** In free meter beats are quarters, and every fourth is a first. */
const freeBar = fraction(1, 1);

/** The counts of the first voice that has bars, in order; empty without one. */
export function countsOf(score: Score, played: Played): readonly Count[] {
  const voice = score.voices.find((each) => each.bars.length > 0);
  const order = played.voices.find((each) => each.voice === voice?.id)?.order ?? [];
  const counts: Count[] = [];
  let gone = ZERO;
  let kind: Kind | null = null;
  for (const { bar: index, onset } of order) {
    const bar = voice!.bars[index]!;
    const into = intoBar(bar, gone);
    gone = add(into, bar.duration);
    kind = kindOf(bar, score.tempos, kind);
    const { beat, perBar, step } = kind.count;
    const count = { from: onset, bar: sub(onset, into), beat, perBar, step };
    const last = counts.at(-1);
    if (last === undefined || !goesOn(last, count)) counts.push(count);
  }
  return counts;
}

/** How far into its full bar a bar begins: an opening pickup ends it, and a bar that was left short is filled by what fits. */
function intoBar(bar: Bar, gone: Fraction): Fraction {
  if (bar.nominal === null) return ZERO;
  if (isOpeningPickup(bar)) return sub(bar.nominal, bar.duration);
  return compare(add(gone, bar.duration), bar.nominal) <= 0 ? gone : ZERO;
}

/** What a meter and a tempo's beat make of a bar; mostly the same from bar to bar. */
interface Kind {
  readonly meter: MeterValue;
  readonly tempo: Fraction | null;
  readonly count: Pick<Count, 'beat' | 'perBar' | 'step'>;
}

function kindOf({ meter, onset }: Bar, tempos: readonly Tempo[], before: Kind | null): Kind {
  const tempo = tempos.findLast((each) => each.beat !== null && compare(each.onset, onset) <= 0)?.beat ?? null;
  if (before?.meter === meter && before.tempo === tempo) return before;
  const beat = beatOf(meter, tempo);
  const perBar = Math.max(1, Math.round(toNumber(div(barLength(meter) ?? freeBar, beat))));
  return { meter, tempo, count: { beat, perBar, step: stepOfFour(meter) } };
}

/** Whether a count only continues another, whole bars later. */
function goesOn(last: Count, next: Count): boolean {
  const alike = equal(last.beat, next.beat) && equal(last.step, next.step) && last.perBar === next.perBar;
  return alike && div(sub(next.bar, last.bar), barOf(last)).den === 1;
}

/** Length of a bar as it is counted. */
export const barOf = ({ beat, perBar }: Pick<Count, 'beat' | 'perBar'>): Fraction => mul(beat, fraction(perBar, 1));

/** The count that holds at a time. */
export const countAt = (counts: readonly Count[], at: Fraction): Count | undefined =>
  counts.findLast(({ from }) => compare(from, at) <= 0) ?? counts[0];

/** How far into its bar a time lies. */
export function into(count: Count, at: Fraction): Fraction {
  const bars = div(sub(at, count.bar), barOf(count));
  return sub(sub(at, count.bar), mul(barOf(count), fraction(Math.floor(bars.num / bars.den), 1)));
}

/** The times from the start to `end` that lie whole steps into their bar, each with its number in the bar from 0. */
export function beatsIn(
  counts: readonly Count[],
  end: Fraction,
  by: 'beat' | 'step',
): readonly { readonly at: Fraction; readonly index: number }[] {
  return counts.flatMap((count, i) => {
    const until = counts[i + 1]?.from ?? end;
    const perBar = Math.round(toNumber(div(barOf(count), count[by])));
    const found: { at: Fraction; index: number }[] = [];
    const first = div(sub(count.from, count.bar), count[by]);
    for (let n = Math.ceil(first.num / first.den); ; n++) {
      const at = add(count.bar, mul(count[by], fraction(n, 1)));
      if (compare(at, until) >= 0) return found;
      found.push({ at, index: n % perBar });
    }
  });
}
