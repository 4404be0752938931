// A part fingered again, as read anew or with one note's own pins lifted: what could be chosen there instead.
import { search, type TableCache } from '../fingering/index.ts';
import { noPin } from './pins.ts';
import { toPlan } from './plan.ts';
import { toTask } from './task.ts';
import type { BassPart, FingeredPart } from './types.ts';

/** The part as if nothing were pinned at the note with this index; a string text further back no longer holds for it either. Searches to the end. */
function freedPart(part: BassPart, note: number, tables: TableCache): FingeredPart {
  const notes = part.notes.map((one, i) => (i === note ? { ...one, pins: one.pins.map(() => noPin) } : one));
  return fingeredPart({ ...part, notes }, tables);
}

/** A part fingered from scratch. Searches to the end. */
function fingeredPart(part: BassPart, tables: TableCache): FingeredPart {
  const task = toTask(part);
  const result = search(task, tables);
  return { part, task, result, plan: toPlan(part, result), ...otherwise(part, tables) };
}

/** The ways to ask what else could be. */
export const otherwise = (part: BassPart, tables: TableCache): Pick<FingeredPart, 'freed' | 'again'> => ({
  freed: (note) => freedPart(part, note, tables),
  again: (other) => fingeredPart(other, tables),
});
