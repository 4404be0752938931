// Time for the hand: how much there is between two notes, in microseconds.
import type { Limits } from '../../bass/types.ts';

/** Open notes since the hand was last stopped are counted up to this many. */
export const freeMost = 4;

/** Inter-onset time, the notes passed before the move, nearest first, and for 0 to 4 open notes among them the time that the hand has for it. */
export interface Timing {
  readonly step: number;
  readonly passed: readonly Passed[];
  readonly available: readonly number[];
}

/** A note on the way back from a move: how long it sounds, and the time from it to the next. */
export interface Passed {
  readonly step: number;
  readonly duration: number;
}

/** The time the hand has once a stopped note that sounds `duration` within `step` may be left: it is held for a share of its length, and for a least time. */
export function afterStopped(limits: Limits, { step, duration }: Passed): number {
  return Math.max(0, step - Math.max(limits.holdLeast, Math.ceil(duration * limits.holdShare)));
}

/**
 * Times for a move, by the notes passed before it, nearest first. After c open notes the hand has all of them and what the stopped note
 * before them leaves; with `freeMost` or more, the last `freeMost` and as if a stopped note stood before them.
 */
export function timingAfter(limits: Limits, passed: readonly Passed[]): Timing {
  const available: number[] = [];
  let open = 0;
  for (let free = 0; free <= freeMost; free++) {
    const stopped = passed[free];
    available.push(open + (stopped ? afterStopped(limits, stopped) : 0));
    open += stopped?.step ?? 0;
  }
  return { step: passed[0]?.step ?? 0, passed, available };
}
