// Searches as the tests do: no result goes on unless the recheck has nothing to object to.
import { recheck, search, type TableCache } from '../../server/src/fingering/index.ts';
import type { Fingered, Task, Unplayable } from '../../server/src/fingering/types.ts';

/** The result of the search, rechecked; throws with the task where the recheck objects. */
export function rechecked(task: Task, tables: TableCache): Fingered | Unplayable {
  const result = search(task, tables);
  const refuted = recheck(task, result);
  if (refuted !== null) throw new Error(`recheck, note ${refuted.note}: ${refuted.why}\n${JSON.stringify(task)}`);
  return result;
}
