// Repeats and endings, exactly: the states at which joins begin and land are variables, the notes between them matrices, and the least sum over all is found by elimination.
import { type Chain, startCosts } from './chain.ts';
import { closureCosts, type Landing } from './closures.ts';
import { eliminate, type Factor } from './eliminate.ts';
import type { State } from './layers.ts';
import { forwardStep, leastOf } from './passes.ts';
import { never } from './rules.ts';
import type { Jump } from './types.ts';
import type { Work } from './work.ts';

/** Which states of a note may be taken; all where nothing is said. */
export type Allowed = ReadonlyMap<number, (state: State) => boolean>;

/** A variable: all states of note `first` where a join begins, or the landings from note `first` on. */
interface Variable {
  readonly first: number;
  readonly entries: readonly Landing[];
}

/** Notes after a variable (or from the start of a run: -1) up to the next one (or the end: -1). */
interface Segment {
  readonly from: number;
  readonly to: number;
  readonly notes: readonly number[];
}

/** The joins of a task as a small graph. */
export interface Sections {
  /** Least cost with only `allowed` states taken and a state for each boundary note; null if there is no way, 'too-much' if it would take too long. */
  solve(allowed: Allowed): Work<{ readonly cost: number; readonly chosen: Allowed } | null | 'too-much'>;
}

/** The joins of a chain, with the matrices between them made. */
export function* makeSections(chain: Chain): Work<Sections> {
  const variables = variablesOf(chain);
  const segments = segmentsOf(chain, variables);
  const joins: Factor[] = [];
  for (const jump of chain.links.closures) joins.push(yield* closureFactor(chain, variables, jump));
  const matrices: Factor[] = [];
  for (const segment of segments) matrices.push(yield* segmentFactor(chain, variables, segment, new Map()));
  const sizes = variables.map(({ entries }) => entries.length);
  return {
    *solve(allowed) {
      const factors = [...joins];
      for (const [i, segment] of segments.entries())
        factors.push(touches(variables, segment, allowed) ? yield* segmentFactor(chain, variables, segment, allowed) : matrices[i]!);
      const solved = yield* eliminate(sizes, factors);
      if (solved === null || solved === 'too-much') return solved;
      return { cost: solved.cost, chosen: chosenStates(chain, variables, solved.values) };
    },
  };
}

/** Notes at which a join begins: what comes next depends on the pass. */
export function beginsOf({ links }: Chain): ReadonlySet<number> {
  return new Set([...links.closures.map(({ from }) => from), ...links.pred.filter((pred, i) => pred >= 0 && pred !== i - 1)]);
}

/** Notes that a join comes back to, where none begins. */
export function landsOf(chain: Chain): ReadonlySet<number> {
  const begins = beginsOf(chain);
  return new Set(chain.links.closures.map(({ to }) => to).filter((to) => !begins.has(to)));
}

/** Notes at which a join begins, and landings of those it comes back to, in the order of the notes. */
function variablesOf(chain: Chain): readonly Variable[] {
  const { links, task } = chain;
  const begins = beginsOf(chain);
  const lands = landsOf(chain);
  const at = [...begins].map((first) => ({ first, entries: statesAt(chain, first, () => true) }));
  const from = [...lands].map((first) => {
    let end = first;
    while (!begins.has(end) && !lands.has(end + 1) && end + 1 < task.notes.length && links.pred[end + 1] === end && hasOpen(chain, end))
      end++;
    const notes = Array.from({ length: end - first + 1 }, (_, i) => first + i);
    return { first, entries: notes.flatMap((note) => statesAt(chain, note, (free) => free === 0 || note === end)) };
  });
  return [...at, ...from].sort((a, b) => a.first - b.first);
}

function hasOpen(chain: Chain, note: number): boolean {
  return chain.layer(note).states.some(({ free }) => free > 0);
}

function statesAt(chain: Chain, note: number, taken: (free: number) => boolean): readonly Landing[] {
  return chain.layer(note).states.flatMap(({ free }, state) => (taken(free) ? [{ note, state }] : []));
}

function isAtNote({ links }: Chain, { first }: Variable): boolean {
  return links.closures.some(({ from }) => from === first) || links.pred.some((pred, i) => pred === first && pred !== i - 1);
}

/** Where each stretch of notes between variables begins and ends. A landing that may reach a join's beginning leads into it without a note between. */
function segmentsOf(chain: Chain, variables: readonly Variable[]): readonly Segment[] {
  const { links, task } = chain;
  const startsAt = new Map(variables.map(({ first }, i) => [first, i]));
  const run = (from: number, start: number): Segment => {
    const notes: number[] = [];
    for (let note = start; note < task.notes.length; note++) {
      if (note > start && links.pred[note] !== note - 1) break;
      if (startsAt.has(note)) return { from, to: startsAt.get(note)!, notes };
      notes.push(note);
    }
    return { from, to: -1, notes };
  };
  const after = variables.flatMap((variable, from) => {
    if (!isAtNote(chain, variable)) {
      const next = startsAt.get(lastOf(variable));
      const direct = next !== undefined && next !== from;
      return direct ? [{ from, to: next, notes: [] }] : [landingRun(chain, run, from, variable)];
    }
    return links.pred.flatMap((pred, i) => (pred === variable.first ? [run(from, i)] : []));
  });
  const roots = links.pred.flatMap((pred, i) => (pred < 0 ? [run(-1, i)] : []));
  return [...roots, ...after];
}

function landingRun({ links, task }: Chain, run: (from: number, start: number) => Segment, from: number, variable: Variable): Segment {
  const next = lastOf(variable) + 1;
  return next < task.notes.length && links.pred[next] === next - 1 ? run(from, next) : { from, to: -1, notes: [] };
}

function lastOf({ first, entries }: Variable): number {
  return entries.at(-1)?.note ?? first;
}

function touches(variables: readonly Variable[], { from, to, notes }: Segment, allowed: Allowed): boolean {
  const own = [from, to].flatMap((v) => (v < 0 ? [] : [variables[v]!.first, ...variables[v]!.entries.map(({ note }) => note)]));
  return [...notes, ...own].some((note) => allowed.has(note));
}

/** Costs from each entry before to each entry after; each entry's own note is paid by the segment that ends in it. */
function* segmentFactor(chain: Chain, variables: readonly Variable[], segment: Segment, allowed: Allowed): Work<Factor> {
  const from = segment.from < 0 ? null : variables[segment.from]!;
  const to = segment.to < 0 ? null : variables[segment.to]!;
  const path = pathOf(chain, segment, from, to);
  const rows: Int32Array[] = [];
  for (const entry of from?.entries ?? [null]) rows.push(yield* rowCosts(chain, path, entry, to, allowed));
  const width = to?.entries.length ?? 1;
  const cells = new Int32Array(rows.length * width);
  rows.forEach((row, i) => {
    cells.set(row, i * width);
  });
  return { variables: [segment.from, segment.to].filter((v) => v >= 0), cells };
}

/** All notes that a row of the segment may pass, in order. */
function pathOf(chain: Chain, { notes }: Segment, from: Variable | null, to: Variable | null): readonly number[] {
  const inner = from && !isAtNote(chain, from) ? range(from.first + 1, lastOf(from)) : [];
  const ahead = to ? range(to.first, lastOf(to)) : [];
  return [...new Set([...inner, ...notes, ...ahead])];
}

function range(from: number, to: number): readonly number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
}

/** Least cost from one entry (or from the start of a run) to each entry of `to`; without `to`, to the end. */
function* rowCosts(chain: Chain, path: readonly number[], entry: Landing | null, to: Variable | null, allowed: Allowed): Work<Int32Array> {
  const reached = new Int32Array(to?.entries.length ?? 1).fill(never);
  let costs = entry ? oneState(chain.layer(entry.note).states.length, entry.state) : new Int32Array(1);
  if (entry) costs = masked(chain, costs, entry.note, allowed);
  if (entry && to) costs = arrive(chain, to, entry.note, costs, reached);
  for (const note of entry ? path.filter((one) => one > entry.note) : path) {
    const next = chain.links.pred[note]! < 0 ? startCosts(chain.layer(note)) : forwardStep(costs, chain.table(note));
    costs = masked(chain, next, note, allowed);
    if (to) costs = arrive(chain, to, note, costs, reached);
    yield costs.length * edgesAState;
  }
  if (!to) reached[0] = leastOf(costs) < 0 ? never : costs[leastOf(costs)]!;
  return reached;
}

const edgesAState = 33;

function oneState(count: number, state: number): Int32Array {
  const costs = new Int32Array(count).fill(never);
  costs[state] = 0;
  return costs;
}

/** Notes what has arrived at the entries on `note`. On the way to a landing only open strings go on. */
function arrive(chain: Chain, to: Variable, note: number, costs: Int32Array, reached: Int32Array): Int32Array {
  if (note < to.first) return costs;
  to.entries.forEach((entry, i) => {
    if (entry.note === note) reached[i] = costs[entry.state]!;
  });
  const { states } = chain.layer(note);
  return isAtNote(chain, to) ? costs : costs.map((cost, i) => (states[i]!.free > 0 ? cost : never));
}

function masked(chain: Chain, costs: Int32Array, note: number, allowed: Allowed): Int32Array {
  const may = allowed.get(note);
  return may ? costs.map((cost, i) => (may(chain.layer(note).states[i]!) ? cost : never)) : costs;
}

/** Cost of a join by the state it comes from and the entry it comes back to. */
function* closureFactor(chain: Chain, variables: readonly Variable[], jump: Jump): Work<Factor> {
  const [from, to] = [jump.from, jump.to].map((note) => variables.findIndex(({ first }) => first === note)) as [number, number];
  const costs = closureCosts(chain, jump);
  const cost = (source: Landing, target: Landing): number => costs(chain.layer(source.note).states[source.state]!, target);
  if (from === to) return { variables: [from], cells: Int32Array.from(variables[from]!.entries, (entry) => cost(entry, entry)) };
  const cells: number[] = [];
  for (const source of variables[from]!.entries) {
    for (const target of variables[to]!.entries) cells.push(cost(source, target));
    yield variables[to]!.entries.length * edgesAState;
  }
  return { variables: [from, to], cells: Int32Array.from(cells) };
}

/** What the values of the variables say of the notes: one state each, and open strings before a landing. */
function chosenStates(chain: Chain, variables: readonly Variable[], values: readonly number[]): Allowed {
  const chosen = new Map<number, (state: State) => boolean>();
  variables.forEach(({ first, entries }, i) => {
    const { note, state } = entries[values[i]!]!;
    const taken = chain.layer(note).states[state]!;
    for (let open = first; open < note; open++) chosen.set(open, ({ free }) => free > 0);
    chosen.set(note, (one) => one === taken);
  });
  return chosen;
}
