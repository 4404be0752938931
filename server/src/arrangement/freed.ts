// A part fingered again with one note's own pins lifted: what could be chosen there instead.
import { search, type TableCache } from '../fingering/index.ts';
import { noPin } from './pins.ts';
import { toPlan } from './plan.ts';
import { toTask } from './task.ts';
import type { BassPart, FingeredPart } from './types.ts';

/** The part as if nothing were pinned at the note with this index; a string text further back no longer holds for it either. Searches to the end. */
export function freedPart(part: BassPart, note: number, tables: TableCache): FingeredPart {
  const notes = part.notes.map((one, i) => (i === note ? { ...one, pins: one.pins.map(() => noPin) } : one));
  const free = { ...part, notes };
  const task = toTask(free);
  const result = search(task, tables);
  return { part: free, task, result, plan: toPlan(free, result), freed: (other) => freedPart(free, other, tables) };
}
