// How much a part may be sped up: the least slowdown of each step in closed form, and a bottleneck pass over them. No search.
import { shiftTime } from '../bass/index.ts';
import type { Limits, Player } from '../bass/types.ts';
import { handCount, handOf, noHand } from './hands.ts';
import type { Layer } from './layers.ts';
import { hops } from './limits/hop.ts';
import { freeMost } from './limits/time.ts';
import { type Model, never } from './model.ts';
import type { TaskNote } from './types.ts';

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

/** Spans of the step into note `to`, by the number of open notes before it. */
export function spansInto(notes: readonly TaskNote[], to: number): readonly Span[] {
  const spans: Span[] = [];
  for (let free = 0; free <= freeMost; free++) {
    const stopped = notes[to - free - 1];
    const first = notes[Math.max(0, to - free)]!;
    const open = notes[to]!.onset - first.onset;
    spans.push(stopped ? { open, step: first.onset - stopped.onset, duration: stopped.duration } : { open, step: 0, duration: 0 });
  }
  return spans;
}

/** Shift times in microseconds from hand to hand. */
export function shiftTimes(player: Player, ease: Ease): Int32Array {
  const times = new Int32Array(handCount * handCount);
  for (let a = 1; a < handCount; a++) {
    for (let b = 1; b < handCount; b++)
      times[a * handCount + b] = shiftTime(player, handOf(a)!, handOf(b)!, player.limits.acceleration[ease]);
  }
  return times;
}

/** A step between two layers into note `index`. */
export interface PaceStep {
  readonly from: Layer;
  readonly to: Layer;
  readonly notes: readonly TaskNote[];
  readonly index: number;
}

/** Least worst factor to each state after one step. */
export function paceStep(model: Model, times: Int32Array, before: Float64Array, step: PaceStep): Float64Array {
  const { from, to } = step;
  const still = model.stillFor(from, to, step.notes[step.index]!.articulation);
  const after = new Float64Array(to.states.length).fill(Number.POSITIVE_INFINITY);
  const spans = spansInto(step.notes, step.index);
  const onsets = step.notes[step.index]!.onset - step.notes[step.index - 1]!.onset;
  const hop = model.player.limits.hop / onsets;
  const factors = new Map<number, number>();
  const factorOf = (needed: number, free: number): number => {
    const key = needed * 8 + free;
    const found = factors.get(key) ?? leastFactor(model.player.limits, needed, spans[free]!);
    factors.set(key, found);
    return found;
  };
  from.states.forEach((a, i) => {
    const base = before[i]!;
    if (base === Number.POSITIVE_INFINITY) return;
    to.states.forEach((b, j) => {
      if (still[i * to.states.length + j]! >= never || base >= after[j]!) return;
      const moving = b.free > 0 || a.hand === noHand ? 0 : factorOf(times[a.hand * handCount + b.hand]!, a.free);
      if (moving >= after[j]!) return;
      const worst = Math.max(base, moving, hops(a.places, b.places) ? hop : 0);
      if (worst < after[j]!) after[j] = worst;
    });
  });
  return after;
}
