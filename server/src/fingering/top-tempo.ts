// How much a part may be sped up: the least slowdown of each step in closed form, and a bottleneck pass over them. No search.
import { shiftTime } from '../bass/index.ts';
import type { Limits, Player } from '../bass/types.ts';
import { handCount, handOf, noHand } from './hands.ts';
import type { Layer } from './layers.ts';
import { freeMost, type Passed } from './limits/time.ts';
import { type Model, never } from './model.ts';
import type { Articulation } from './types.ts';

/** Acceleration of the hand to judge by. */
export type Ease = keyof Limits['acceleration'];

/** Times of a step from which slowdowns follow: the open notes in between, and the stopped note before them, microseconds. */
interface Span {
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

/** Shift times in microseconds from hand to hand. */
export function shiftTimes(player: Player, ease: Ease): Int32Array {
  const own = known[ease].get(player);
  if (own) return own;
  const times = new Int32Array(handCount * handCount);
  for (let a = 1; a < handCount; a++) {
    for (let b = 1; b < handCount; b++)
      times[a * handCount + b] = shiftTime(player, handOf(a)!, handOf(b)!, player.limits.acceleration[ease]);
  }
  known[ease].set(player, times);
  return times;
}

const known: Readonly<Record<Ease, WeakMap<Player, Int32Array>>> = { limit: new WeakMap(), comfortable: new WeakMap() };

/** A step between two layers, with the notes passed before it. */
export interface PaceStep {
  readonly from: Layer;
  readonly to: Layer;
  readonly articulation: Articulation;
  readonly passed: readonly Passed[];
}

/** Least worst factor to each state after one step. */
export function paceStep(model: Model, times: Int32Array, before: Float64Array, step: PaceStep): Float64Array {
  const { from, to } = step;
  const still = model.stillFor(from, to, step.articulation);
  const after = new Float64Array(to.states.length).fill(Number.POSITIVE_INFINITY);
  const hopping = model.hopsFor(from, to);
  const spans = spansOf(step.passed);
  const hop = model.player.limits.hop / (step.passed[0]?.step ?? 0);
  const factors = new Map<number, number>();
  const factorOf = (needed: number, free: number): number => {
    const key = needed * 8 + free;
    const found = factors.get(key) ?? leastFactor(model.player.limits, needed, spans[free]!);
    factors.set(key, found);
    return found;
  };
  // Sources by their own worst factor: the first that can do no better ends the search for a target.
  const sources = [...before.keys()].filter((i) => before[i]! < Number.POSITIVE_INFINITY).sort((a, b) => before[a]! - before[b]!);
  to.states.forEach((b, j) => {
    for (const i of sources) {
      const base = before[i]!;
      if (base >= after[j]!) return;
      if (still[i * to.states.length + j]! >= never) continue;
      const a = from.states[i]!;
      const moving = b.free > 0 || a.hand === noHand ? 0 : factorOf(times[a.hand * handCount + b.hand]!, a.free);
      const slow = Math.max(base, moving);
      const worst = slow < hop && hopping[i * to.states.length + j]! > 0 ? hop : slow;
      if (worst < after[j]!) after[j] = worst;
    }
  });
  return after;
}
