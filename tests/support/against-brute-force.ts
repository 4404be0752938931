// Holds a result of the search against every way there is: best and second best of the playable, each window of the unplayable.
import type { Fingered, Task, Unplayable } from '../../server/src/fingering/types.ts';
import { type Budget, everything, everyWay } from './brute-force.ts';
import { soundingOf } from './random-task.ts';

/** What came of it: `untried` where there were more ways than the tries allowed. */
export type Verdict = { readonly kind: 'equal' } | { readonly kind: 'untried' } | { readonly kind: 'apart'; readonly why: string };

const equal: Verdict = { kind: 'equal' };
const untried: Verdict = { kind: 'untried' };

/** Second bests dearer than this over the best are taken to be so once every way up to it has been tried (about three shifts). */
const secondMost = 3000;

/** Compares a result with brute force, at the most `tries` grips of it. */
export function againstBruteForce(task: Task, result: Fingered | Unplayable, tries: number): Verdict {
  return result.kind === 'fingered' ? playable(task, result, tries) : unplayable(task, result, { ...everything, tries });
}

function playable(task: Task, result: Fingered, tries: number): Verdict {
  const second = secondOf(task, result);
  const ways = everyWay(task, soundingOf(task), { cost: result.cost + Math.min(second, secondMost), tries });
  if (ways === null) return untried;
  const [best, next] = [...ways.values()];
  if (best !== result.cost) return { kind: 'apart', why: `the search says ${result.cost}, the cheapest way costs ${best}` };
  const right = second > secondMost ? next === undefined : next === result.cost + second;
  return right ? equal : { kind: 'apart', why: `the second best costs ${next}, the search says ${result.cost + second}` };
}

/** What the cheapest way that differs anywhere costs more than the best. */
function secondOf(task: Task, result: Fingered): number {
  return Math.min(
    ...task.notes.flatMap((_, i) => result.alternatives(i, 2).map(({ regret }, k) => (k === 0 ? Number.POSITIVE_INFINITY : regret))),
  );
}

/** Each window alone has no way; where a join is at fault the whole has none. */
function unplayable(task: Task, { windows }: Unplayable, budget: Budget): Verdict {
  const alone = windows.map(({ first, last }) => {
    const row: Task = { ...task, notes: task.notes.slice(first, last + 1), jumps: [], breaks: [] };
    return everyWay(row, soundingOf(row), budget);
  });
  if (alone.every((ways) => ways !== null && ways.size === 0)) return equal;
  const whole = everyWay(task, soundingOf(task), budget);
  if (whole === null) return untried;
  return whole.size === 0 ? equal : { kind: 'apart', why: `said to be unplayable, but ${[...whole.keys()][0]} can be played` };
}
