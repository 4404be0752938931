// Adding up bars: which ones hold more or less than their meter asks, where a pickup and its complement count as one bar.
import { add, compare, equal, sub, toText, ZERO } from '../../score/fraction.ts';
import type { Bar, Fraction, Score, Voice } from '../../score/types.ts';
import type { Span } from '../../text/span.ts';
import type { Finding } from '../check.ts';
import { type Join, joinsOf } from './joins.ts';

export type MeteredBar = Bar & { readonly nominal: Fraction };

/** A bar that does not add up. `by` is the surplus or the lack, always positive. */
export interface BarProblem {
  readonly voice: Voice;
  readonly bar: MeteredBar;
  readonly kind: 'long' | 'short';
  readonly by: Fraction;
  readonly cause:
    | { readonly kind: 'alone' }
    /** The bar and the pickup that follows it in play are wrong together. */
    | { readonly kind: 'pickup'; readonly pickup: Bar }
    /** The bar and the next are one bar together: the bar line between them is what is wrong. */
    | { readonly kind: 'split' }
    /** Most bars of the voice hold the same other length: the meter or the unit length is what is wrong. */
    | { readonly kind: 'meter'; readonly bars: number };
}

/** From how many bars on a common other length counts as one wrong meter. */
const fewestForMeter = 4;

/** All bars of a tune that do not add up, one problem a cause. */
export function barProblems(score: Score): readonly BarProblem[] {
  const found = score.voices.flatMap(problemsOfVoice);
  const meters = found.filter((problem) => problem.cause.kind === 'meter');
  return found.filter((problem) => problem.cause.kind !== 'meter' || problem === meters[0]);
}

/** Where a bar that does not add up is shown: from its first note or rest on, not from a bar line in the line above. */
export function musicOf({ voice, bar }: { readonly voice: Voice; readonly bar: Bar }): Span {
  const first = [voice.notes, voice.rests].flatMap((all) => all.find((one) => one.bar === bar.index)?.from ?? []);
  return { from: first.length > 0 ? Math.min(...first) : bar.from, to: bar.to };
}

/** The pickup that is wrong together with the bar, as a place beside the finding. */
export const pickupBeside = ({ voice, cause }: BarProblem): Finding['related'] =>
  cause.kind === 'pickup' ? [{ ...musicOf({ voice, bar: cause.pickup }), message: 'This is the pickup.' }] : [];

function problemsOfVoice(voice: Voice): readonly BarProblem[] {
  const bars = voice.bars.filter((bar): bar is MeteredBar => bar.nominal !== null && compare(bar.duration, ZERO) > 0);
  const meter = meterProblem(voice, bars);
  if (meter !== null) return [meter];
  const joins = joinsOf(bars);
  return halvesJoined(bars.flatMap((bar) => problemOfBar(voice, bar, joins) ?? []));
}

/** Two short bars in a row that make one: one cause, told at the first. */
function halvesJoined(problems: readonly BarProblem[]): readonly BarProblem[] {
  const joined: BarProblem[] = [];
  for (const problem of problems) {
    const before = joined.at(-1);
    if (before !== undefined && isSplit(before, problem)) joined[joined.length - 1] = { ...before, cause: { kind: 'split' } };
    else joined.push(problem);
  }
  return joined;
}

const isSplit = (a: BarProblem, b: BarProblem): boolean =>
  a.cause.kind === 'alone' &&
  b.cause.kind === 'alone' &&
  b.bar.index === a.bar.index + 1 &&
  equal(add(a.bar.duration, b.bar.duration), a.bar.nominal) &&
  equal(a.bar.nominal, b.bar.nominal);

/** One problem for a meter that most bars contradict in the same way. */
function meterProblem(voice: Voice, bars: readonly MeteredBar[]): BarProblem | null {
  const wrong = bars.filter((bar) => !equal(bar.duration, bar.nominal));
  const shared = largestGroup(wrong, (bar) => `${toText(bar.duration)} ${toText(bar.nominal)}`);
  const first = shared[0];
  if (first === undefined || shared.length < fewestForMeter || shared.length * 2 <= bars.length) return null;
  return problem(voice, first, first.duration, { kind: 'meter', bars: shared.length });
}

function largestGroup<T>(items: readonly T[], keyOf: (item: T) => string): readonly T[] {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups.values()].reduce<readonly T[]>((most, group) => (group.length > most.length ? group : most), []);
}

function problemOfBar(voice: Voice, bar: MeteredBar, joins: readonly Join<MeteredBar>[]): BarProblem | null {
  const order = compare(bar.duration, bar.nominal);
  if (order > 0) return problem(voice, bar, bar.duration, { kind: 'alone' });
  if (order === 0) return problemOfFullBar(voice, bar, joins);
  const around = joins.filter((join) => join.before === bar || join.after === bar);
  if (around.some(completes)) return null;
  if (isPickup(bar, voice, around)) return null;
  const pickup = around.find((join) => join.before === bar && isShort(join.after))?.after;
  if (pickup === undefined) return problem(voice, bar, bar.duration, { kind: 'alone' });
  return problem(voice, bar, add(bar.duration, pickup.duration), { kind: 'pickup', pickup });
}

/** A full bar is wrong only where it goes back to a pickup that nothing makes room for. */
function problemOfFullBar(voice: Voice, bar: MeteredBar, joins: readonly Join<MeteredBar>[]): BarProblem | null {
  const back = joins.find((join) => join.before === bar && join.kind === 'repeat' && isShort(join.after));
  if (back === undefined || joins.some((join) => join.after === back.after && completes(join))) return null;
  return problem(voice, bar, add(bar.duration, back.after.duration), { kind: 'pickup', pickup: back.after });
}

const isShort = (bar: MeteredBar): boolean => compare(bar.duration, bar.nominal) < 0;

const completes = (join: Join<MeteredBar>): boolean => equal(add(join.before.duration, join.after.duration), join.before.nominal);

/** A short bar at the start of the voice or of a section: judged at the bar it follows, not here. */
const isPickup = (bar: MeteredBar, voice: Voice, around: readonly Join<MeteredBar>[]): boolean =>
  bar.index === voice.bars[0]?.index || around.some((join) => join.after === bar && join.kind !== 'ending');

function problem(voice: Voice, bar: MeteredBar, length: Fraction, cause: BarProblem['cause']): BarProblem {
  const long = compare(length, bar.nominal) > 0;
  const by = long ? sub(length, bar.nominal) : sub(bar.nominal, length);
  return { voice, bar, kind: long ? 'long' : 'short', by, cause };
}
