// Making a melody meet its tempo: the fewest slurs that suffice, or fewer notes, never at the cost of the beat.
import { add, compare, div, equal, fraction, sub, toNumber } from '../score/fraction.ts';
import type { Fraction, NoteId } from '../score/types.ts';
import { countStart, type Melody, type Tone } from './melody.ts';

/** A tone at its sounding pitch, as it will be written. */
export interface Placed {
  readonly tone: Tone;
  readonly sounding: number;
  readonly duration: Fraction;
  readonly slur: 'none' | 'first' | 'second';
}

export type Thinning = 'none' | 'slur' | 'run' | 'quarter';

export interface Thinned {
  readonly line: readonly Placed[];
  /** What was left out, and why. */
  readonly dropped: ReadonlyMap<NoteId, string>;
}

/** Leaves out notes off the grid by the rung of each: repeated, passing and neighbour notes (`run`), or all that may go (`quarter`). The note before sounds on. */
export function dropped(line: readonly Placed[], melody: Melody, rungOf: (tone: Tone) => Thinning): Thinned {
  const lasts = new Set(melody.sections.map((s) => line.findLast((p) => s.bars.includes(p.tone.bar))?.tone.id));
  const kept: Placed[] = [];
  const gone = new Map<NoteId, string>();
  line.forEach((placed, i) => {
    const before = kept.at(-1);
    const why = mayGo(placed, before) && !lasts.has(placed.tone.id) ? reason(line, i, rungOf(placed.tone)) : null;
    if (why === null || before === undefined) kept.push(placed);
    else {
      gone.set(placed.tone.id, why);
      kept[kept.length - 1] = { ...before, duration: add(before.duration, placed.duration) };
    }
  });
  return { line: kept, dropped: gone };
}

/** Never dropped: notes on the grid, pickups, syncopations over a grid point, and a note with none before it in its bar. */
function mayGo({ tone }: Placed, before: Placed | undefined): boolean {
  if (tone.onGrid || tone.syncopated || tone.pickup || before === undefined) return false;
  return before.tone.bar === tone.bar && equal(add(before.tone.onset, before.duration), tone.onset);
}

function reason(line: readonly Placed[], i: number, rung: Thinning): string | null {
  if (rung === 'none' || rung === 'slur') return null;
  const before = line[i - 1]?.sounding;
  const here = line[i]!.sounding;
  const after = line[i + 1]?.sounding;
  if (here === before) return 'a repeated note off the beat';
  if (before !== undefined && after !== undefined) {
    const first = here - before;
    const second = after - here;
    const steps = Math.abs(first) <= 2 && Math.abs(second) <= 2;
    if (steps && first * second > 0) return 'a passing note off the beat';
    if (steps && before === after) return 'a neighbour note off the beat';
  }
  return rung === 'quarter' ? 'off the quarter grid' : null;
}

/** What slurs are made by: attacks a second that stay comfortable, the open strings, and how long a whole note lasts in seconds. */
export interface Pace {
  readonly pluck: number;
  readonly open: readonly number[];
  readonly wholeSeconds: number;
}

/** Longest time between the notes of a made slur: a hammered note later than this finds a string that has faded (a judgement). */
const slurSeconds = 0.5;

/** A line with slurs, and what they did not mend: the indices of the attacks of each second that is still too full. */
export interface Slurred {
  readonly line: readonly Placed[];
  readonly overfull: readonly (readonly number[])[];
}

/** Slurs pairs until the pace is met, each time in the first second that is too full: pairs with an open string first, then the latest. `banned` holds first notes of pairs that may not be taken. */
export function slurred(line: readonly Placed[], melody: Melody, pace: Pace, banned: ReadonlySet<NoteId>): Slurred {
  let made = line;
  const overfull: (readonly number[])[] = [];
  for (;;) {
    const full = firstOverfull(made, pace, overfull.at(-1)?.at(-1) ?? -1);
    if (full === null) return { line: made, overfull };
    const pair = bestPair(made, melody, pace, banned, full);
    if (pair === null) overfull.push(full);
    else made = made.map((p, i) => (i === pair ? { ...p, slur: 'first' } : i === pair + 1 ? { ...p, slur: 'second' } : p));
  }
}

/** Closest that two plucked notes may come, in seconds: the hard limit of a right hand (10 a second, assumed). */
const closestAttacks = 0.1;

/** Indices of the attacks in the first second that holds too many, or around the first two that are too close, and that ends after the attack `past`: slurring any of them to the note before helps. */
function firstOverfull(line: readonly Placed[], pace: Pace, past: number): readonly number[] | null {
  const attacks = line.flatMap((p, i) => (p.slur === 'second' ? [] : [{ i, at: toNumber(p.tone.onset) * pace.wholeSeconds }]));
  const most = Math.floor(pace.pluck);
  const gap = (from: number, to: number): number => attacks[to]!.at - attacks[from]!.at + 1e-9;
  for (let i = 1; i < attacks.length; i++) {
    if (attacks[i]!.i <= past) continue;
    if (gap(i - 1, i) < closestAttacks) return [attacks[i - 1]!.i, attacks[i]!.i];
    if (i >= most && gap(i - most, i) < 1) return attacks.slice(i - most, i + 1).map((a) => a.i);
  }
  return null;
}

function bestPair(
  line: readonly Placed[],
  melody: Melody,
  pace: Pace,
  banned: ReadonlySet<NoteId>,
  full: readonly number[],
): number | null {
  const pairs = full.map((second) => second - 1).filter((first) => isPair(line[first], line[first + 1], melody, pace, banned));
  const open = pairs.filter((first) => pace.open.includes(Math.min(line[first]!.sounding, line[first + 1]!.sounding)));
  return open.at(-1) ?? pairs.at(-1) ?? null;
}

function isPair(a: Placed | undefined, b: Placed | undefined, melody: Melody, pace: Pace, banned: ReadonlySet<NoteId>): boolean {
  if (a === undefined || b === undefined || a.slur !== 'none' || b.slur !== 'none' || banned.has(a.tone.id)) return false;
  const way = Math.abs(b.sounding - a.sounding);
  const together = a.tone.bar === b.tone.bar && equal(add(a.tone.onset, a.duration), b.tone.onset);
  const soon = toNumber(sub(b.tone.onset, a.tone.onset)) * pace.wholeSeconds <= slurSeconds;
  return together && soon && a.tone.onGrid && !isBackbeat(b.tone, melody) && way >= 1 && way <= 2;
}

/** Whether a tone begins on the second or fourth quarter of its bar. */
function isBackbeat(tone: Tone, melody: Melody): boolean {
  const bar = melody.voice.bars[tone.bar]!;
  const quarters = div(sub(tone.onset, countStart(melody.voice, bar)), fraction(1, 4));
  return quarters.den === 1 && quarters.num % 2 === 1 && compare(quarters, fraction(4, 1)) < 0;
}
