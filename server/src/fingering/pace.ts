// The least slowdown of one step, in closed form.
import { shiftTime } from '../bass/index.ts';
import type { Limits, Player } from '../bass/types.ts';
import { handCount, handOf, handsOf } from './hands.ts';
import { freeMost, type Passed } from './limits/time.ts';

/** Slowdowns in tables are integers, rounded up to this fraction of one: enough to tell a tempo to a thousandth of a beat a minute. */
export const paceUnit = 1_000_000;

/** Acceleration of the hand to judge by. */
export type Ease = keyof Limits['acceleration'];

/** Times of a step from which slowdowns follow: the open notes in between, and the stopped note before them, microseconds. */
export interface Span {
  readonly open: number;
  readonly step: number;
  readonly duration: number;
}

/**
 * Least factor on all times with which `needed` microseconds are there. Of a stopped note its step less its hold is free, the hold being a
 * share of its length or the least hold, whichever is more: two branches; after open notes a third, without the stopped note's rest.
 */
export function leastFactor(limits: Limits, needed: number, span: Span): number {
  if (needed <= 0) return 0;
  const whole = span.open + span.step;
  const withRest = Math.max((needed + limits.holdLeast) / whole, needed / (whole - span.duration * limits.holdShare));
  const held = whole - span.duration * limits.holdShare > 0 ? withRest : Number.POSITIVE_INFINITY;
  return span.open > 0 ? Math.min(needed / span.open, held) : held;
}

/** Spans of a step by the number of open notes before it, from the notes passed, nearest first. */
export function spansOf(passed: readonly Passed[]): readonly Span[] {
  return Array.from({ length: freeMost + 1 }, (_, free) => ({
    open: passed.slice(0, free).reduce((sum, { step }) => sum + step, 0),
    step: passed[free]?.step ?? 0,
    duration: passed[free]?.duration ?? 0,
  }));
}

/** Shift times in microseconds from hand to hand, `[from * handCount + to]`; 0 from and to no hand and hands that the player's frames do not have. */
export function shiftTimes(player: Player, ease: Ease): Int32Array {
  const own = known[ease].get(player);
  if (own) return own;
  const times = new Int32Array(handCount * handCount);
  const hands = handsOf(player);
  for (const a of hands) {
    for (const b of hands) times[a * handCount + b] = shiftTime(player, handOf(a)!, handOf(b)!, player.limits.acceleration[ease]);
  }
  known[ease].set(player, times);
  return times;
}

const known: Readonly<Record<Ease, WeakMap<Player, Int32Array>>> = { limit: new WeakMap(), comfortable: new WeakMap() };
