// How notes follow each other: each note has one predecessor, and what repeats and endings join beyond that are closures.
import type { Jump, Task } from './types.ts';

/** `pred[i]` is the note before note i, -1 where a run begins with a free hand; `step[i]` is the time between them in microseconds. */
export interface Links {
  readonly pred: readonly number[];
  readonly step: readonly number[];
  /** Joins that go back to a note which has another predecessor: the same written notes are played again. */
  readonly closures: readonly Jump[];
}

/** Links of a task. A note that is not reached from the one before it hangs on the first earlier note that jumps to it. */
export function linksOf(task: Task): Links {
  const count = task.notes.length;
  const breaks = new Set(task.breaks);
  const jumps = task.jumps.filter(({ from, to }) => from >= 0 && to >= 0 && from < count && to < count);
  const hung = new Map<number, Jump>();
  for (const jump of jumps) if (breaks.has(jump.to) && jump.from < jump.to && !hung.has(jump.to)) hung.set(jump.to, jump);
  const pred = task.notes.map((_, i) => hung.get(i)?.from ?? (breaks.has(i) ? -1 : i - 1));
  const step = task.notes.map((note, i) => hung.get(i)?.gap ?? (i === 0 ? 0 : note.onset - task.notes[i - 1]!.onset));
  return { pred, step, closures: jumps.filter((jump) => hung.get(jump.to) !== jump) };
}

/** Note `index` and those before it, nearest first, with the step that leads on from each: at most `most` of them. */
export function walkBack(links: Links, index: number, most: number): readonly { readonly note: number; readonly step: number }[] {
  const back: { note: number; step: number }[] = [];
  for (let to = index; back.length < most && links.pred[to]! >= 0; to = links.pred[to]!)
    back.push({ note: links.pred[to]!, step: links.step[to]! });
  return back;
}
