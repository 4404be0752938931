// Windows that only a repeat's join makes: the end of a pass and the start of the next, laid out in a row.
import { explainWindow } from './blame.ts';
import type { TableCache } from './cache.ts';
import { linksOf } from './links.ts';
import { modelFor } from './model.ts';
import type { Jump, Task, Window } from './types.ts';
import { minimalWindows } from './windows.ts';
import type { Work } from './work.ts';

/** Notes looked at on each side of a join. */
const around = 24;

/** One window a join that cannot be played, told by the notes before the join; where each join can be played by itself but not all with one place a note, the whole is named. */
export function* joinWindows(task: Task, cache: TableCache): Work<readonly Window[]> {
  const found: Window[] = [];
  for (const jump of task.jumps) found.push(...(yield* joinWindow(task, cache, jump)));
  if (found.length > 0) return innermost(found);
  const whole = { first: 0, last: task.notes.length - 1 };
  return [{ ...whole, code: 'shift.too-far', also: [], needed: 0, available: 0, unit: 'none', slowdown: null }];
}

/** In order, without those that hold another: two joins may be stuck over the same notes. */
function innermost(windows: readonly Window[]): readonly Window[] {
  const inOrder = [...windows].sort((a, b) => a.last - b.last || b.first - a.first);
  return inOrder.filter(({ first }, i) => inOrder.slice(0, i).every((before) => before.first < first));
}

function* joinWindow(task: Task, cache: TableCache, { from, to, gap }: Jump): Work<readonly Window[]> {
  const before = task.notes.slice(Math.max(0, from - around + 1), from + 1);
  const later = task.notes.slice(to, to + around);
  const offset = before.at(-1)!.onset + gap - later[0]!.onset;
  const notes = [...before, ...later.map((note) => ({ ...note, onset: note.onset + offset }))];
  const row: Task = { ...task, notes, jumps: [], breaks: [] };
  const windows = yield* minimalWindows(modelFor(row, cache), row, linksOf(row), { first: 0, last: notes.length - 1 });
  const across = windows.find(({ first, last }) => first < before.length && last >= before.length);
  if (!across) return [];
  return [{ ...(yield* explainWindow(row, cache, across)), first: from - before.length + 1 + across.first, last: from }];
}
