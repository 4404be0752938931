// The order in which a task's notes sound: each jump is taken once, when its turn comes.
import type { Task } from './types.ts';

/** A note as it sounds, and the time from the one that sounds before it, in microseconds. */
export interface Sounded {
  readonly note: number;
  readonly step: number;
}

/** Notes in the order they sound. From a note where the next jump begins it is taken; else the written order goes on, up to a break. */
export function playOrder({ notes, jumps, breaks }: Task): readonly Sounded[] {
  const order: Sounded[] = [];
  let turn = 0;
  for (let next: Sounded | null = notes.length > 0 ? { note: 0, step: 0 } : null; next !== null; ) {
    order.push(next);
    const { note } = next;
    const jump = jumps[turn];
    if (jump?.from === note && jump.to < notes.length) {
      turn++;
      next = { note: jump.to, step: jump.gap };
    } else {
      const goesOn = note + 1 < notes.length && !breaks.includes(note + 1);
      next = goesOn ? { note: note + 1, step: notes[note + 1]!.onset - notes[note]!.onset } : null;
    }
  }
  return order;
}
