// The search: exact, resumable by work units, for the best fingering or all minimal windows.
import { makeAlternatives, makeJoinedAlternatives } from './alternatives.ts';
import { explainWindow } from './blame.ts';
import type { TableCache } from './cache.ts';
import { type Joins, makeJoins, type Solved } from './cases.ts';
import { certificateOf } from './certificate.ts';
import { type Chain, makeChain } from './chain.ts';
import { joinWindows } from './joins.ts';
import { type Model, modelFor } from './model.ts';
import { forwardPass, type Pass, placingsOf } from './paths.ts';
import type { Allowed } from './sections.ts';
import { speedOf } from './top-tempo.ts';
import type { Alternative, Certificate, Fingered, Placing, Running, Search, Task, TopTempo, Unplayable, Window } from './types.ts';
import { minimalWindows, type Stretch } from './windows.ts';
import { finish, type Work } from './work.ts';

/** A search that has done nothing yet. It can be dropped at any time. */
export function startSearch(task: Task, tables: TableCache): Search {
  const work = solve(task, tables);
  let done = 0;
  let result: Fingered | Unplayable | null = null;
  return {
    step: (units): Running | Fingered | Unplayable => {
      const until = done + units;
      while (result === null && done < until) {
        const next = work.next();
        if (next.done) result = next.value;
        else done += next.value;
      }
      return result ?? { kind: 'running', done, total: Math.max(done, expectedWork(task)) };
    },
  };
}

/** Runs a search to its end. */
export function search(task: Task, tables: TableCache): Fingered | Unplayable {
  return finish(solve(task, tables));
}

/** About as many edges as a note of a tune has. */
const edgesPerNote = 1200;
function expectedWork(task: Task): number {
  return task.notes.length * edgesPerNote;
}

const nothingChosen: Allowed = new Map();

function* solve(task: Task, cache: TableCache): Work<Fingered | Unplayable> {
  cache.begin();
  const model = modelFor(task, cache);
  const chain = makeChain(model, task);
  const plain = yield* forwardPass(chain, nothingChosen);
  if (plain === null) return yield* unplayable(model, task, cache, chain);
  const certificate = () => certificateOf(chain, plain);
  const alone = (exact: boolean) =>
    fingered(chain, { ...plain, exact, certificate, placings: placingsOf(chain, plain.path) }, () => makeAlternatives(chain, plain));
  if (!isJoined(chain)) return yield* alone(true);
  const joins = yield* makeJoins(chain);
  const solved = yield* joins.solve(nothingChosen);
  if (solved === null) return yield* unplayable(model, task, cache, chain);
  if (solved === 'too-much') return yield* alone(false);
  return yield* joinedFingering(chain, joins, solved, certificate);
}

/** The solution told by the written notes; where a pass was written out, its chain has more. */
function* joinedFingering(chain: Chain, joins: Joins, solved: Solved, certificate: () => Certificate): Work<Fingered> {
  const { chain: laid, chosen, cost, exact, written } = solved;
  const { path } = (yield* forwardPass(laid, chosen))!;
  const placings = placingsOf(laid, path);
  const own = written.map((at) => placings[at]!);
  return yield* fingered(laid, { path, cost, exact, certificate, placings: own }, () => makeJoinedAlternatives(chain, joins, own, cost));
}

/** Whether anything but one note after another is in the task. */
function isJoined({ links }: Chain): boolean {
  return links.closures.length > 0 || links.pred.some((pred, i) => pred >= 0 && pred !== i - 1);
}

/** What was found, with the alternatives to be worked out when first asked for. */
function* fingered(
  chain: Chain,
  found: Omit<Fingered, 'kind' | 'topTempo' | 'alternatives'> & Pick<Pass, 'path'>,
  makeRegrets: () => (note: number) => readonly Alternative[],
): Work<Fingered> {
  let regrets: ((note: number) => readonly Alternative[]) | null = null;
  return {
    kind: 'fingered',
    cost: found.cost,
    placings: found.placings,
    exact: found.exact,
    certificate: found.certificate,
    topTempo: yield* topTempoOf(chain, found.path),
    alternatives: (note, most) => {
      if (!found.placings[note]) return [];
      regrets ??= makeRegrets();
      return regrets(note).slice(0, most);
    },
  };
}

/** Runs of notes that stand one after another. */
function stretchesOf(task: Task): readonly Stretch[] {
  const starts = [0, ...task.breaks.filter((at) => at > 0 && at < task.notes.length)];
  return task.notes.length === 0 ? [] : starts.map((first, i) => ({ first, last: (starts[i + 1] ?? task.notes.length) - 1 }));
}

function* topTempoOf(chain: Chain, path: readonly number[] | null): Work<TopTempo> {
  return { limit: yield* speedOf(chain, 'limit', path), comfortable: yield* speedOf(chain, 'comfortable', path) };
}

function* unplayable(model: Model, task: Task, cache: TableCache, chain: Chain): Work<Unplayable> {
  const stretches = stretchesOf(task);
  const found: Stretch[] = [];
  for (const stretch of stretches) found.push(...(yield* minimalWindows(model, task, chain.links, stretch)));
  const windows: Window[] = [];
  for (const stretch of found) windows.push(yield* explainWindow(task, cache, stretch));
  if (found.length === 0) windows.push(...(yield* joinWindows(task, cache)));
  const rest: (Placing | null)[] = task.notes.map(() => null);
  for (const stretch of playableStretches(stretches, windows)) {
    const part: Task = { ...task, notes: task.notes.slice(stretch.first, stretch.last + 1), jumps: [], breaks: [] };
    const own = makeChain(model, part);
    const pass = yield* forwardPass(own, nothingChosen);
    placingsOf(own, pass?.path ?? []).forEach((placing, i) => {
      rest[stretch.first + i] = placing;
    });
  }
  return { kind: 'unplayable', windows, rest, topTempo: yield* topTempoOf(chain, null) };
}

/** What lies between the windows, cut where a window or a break lies. */
function playableStretches(stretches: readonly Stretch[], windows: readonly Window[]): readonly Stretch[] {
  const blocked = new Set(windows.flatMap(({ first, last }) => Array.from({ length: last - first + 1 }, (_, i) => first + i)));
  return stretches.flatMap(({ first, last }) => {
    const runs: Stretch[] = [];
    let start = first;
    for (let i = first; i <= last + 1; i++) {
      if (i <= last && !blocked.has(i)) continue;
      if (i > start) runs.push({ first: start, last: i - 1 });
      start = i + 1;
    }
    return runs;
  });
}
