// Time for the hand: how much there is between two notes, in microseconds.
import type { Limits } from '../../bass/types.ts';
import type { TaskNote } from '../types.ts';

/** Open notes since the hand was last stopped are counted up to this many. */
export const freeMost = 4;

/** Inter-onset time, and for 0 to 4 open notes before the move the time that the hand has for it. */
export interface Timing {
  readonly step: number;
  readonly available: readonly number[];
}

/** The time the hand has once a stopped note that sounds `duration` within `step` may be left: it is held for a share of its length, and for a least time. */
export function afterStopped(limits: Limits, step: number, duration: number): number {
  return Math.max(0, step - Math.max(limits.holdLeast, Math.ceil(duration * limits.holdShare)));
}

/**
 * Times for the move into note `to` from the note before. After c open notes the hand has all of them and what the stopped note before
 * them leaves; with `freeMost` or more, the last `freeMost` and as if a stopped note stood before them.
 */
export function timingInto(limits: Limits, notes: readonly TaskNote[], to: number): Timing {
  const onset = notes[to]!.onset;
  const available = [leaves(limits, notes, to - 1, onset)];
  for (let free = 1; free <= freeMost && to - free >= 0; free++) {
    const first = to - free;
    const before = first > 0 ? leaves(limits, notes, first - 1, notes[first]!.onset) : 0;
    available.push(onset - notes[first]!.onset + before);
  }
  while (available.length <= freeMost) available.push(available.at(-1)!);
  return { step: onset - notes[to - 1]!.onset, available };
}

function leaves(limits: Limits, notes: readonly TaskNote[], index: number, next: number): number {
  const note = notes[index]!;
  return afterStopped(limits, next - note.onset, note.duration);
}
