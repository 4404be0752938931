// Joins weighed case by case where a pass may go by on open strings alone: each note at which it may first stop a string is a case, and so is none.
import type { Chain } from './chain.ts';
import type { State } from './layers.ts';
import { type Allowed, beginsOf, landsOf, makeSections, type Sections } from './sections.ts';
import type { Jump } from './types.ts';
import { isOpen, unrolled } from './unrolled.ts';
import type { Work } from './work.ts';

/** The least cost, and the chain and states that have it. */
export interface Solved {
  readonly cost: number;
  /** Whether every case was weighed exactly. */
  readonly exact: boolean;
  readonly chain: Chain;
  readonly chosen: Allowed;
  /** Where each note of the task stands in `chain`. */
  readonly written: readonly number[];
}

/** The joins of a chain. */
export interface Joins {
  /** Least cost with only `allowed` states taken; null if there is no way, 'too-much' if it would take too long. */
  solve(allowed: Allowed): Work<Solved | null | 'too-much'>;
}

/** One way of going about it: a chain, what may be taken, and what is left to spend. */
interface Case {
  readonly chain: Chain;
  readonly sections: Sections;
  readonly allowed: Allowed;
  readonly spent: Spent;
}

interface Spent {
  casesLeft: number;
  exact: boolean;
}

/** The most cases that are tried before a pass is weighed as if it stopped a string. */
const casesMost = 64;

/** The joins of a chain, with what all solutions share made. */
export function* makeJoins(chain: Chain): Work<Joins> {
  const sections = yield* makeSections(chain);
  return {
    *solve(allowed) {
      const spent = { casesLeft: casesMost, exact: true };
      const solved = yield* solveCase({ chain, sections, allowed, spent });
      return solved === null || solved === 'too-much' ? solved : { ...solved, exact: spent.exact };
    },
  };
}

type Outcome = Omit<Solved, 'exact'> | null | 'too-much';

function* solveCase(own: Case): Work<Outcome> {
  const runs = own.chain.links.closures.map((jump) => runOf(own, jump));
  const run = runs.find(({ ends }) => ends === 'at-join');
  if (run === undefined || own.spent.casesLeft <= 0) {
    if (runs.some(({ ends }) => ends === 'at-join' || ends === 'at-landing')) own.spent.exact = false;
    return yield* solveAsIs(own);
  }
  const { notes } = run;
  let best: Outcome = yield* solveOpen({ ...own, allowed: narrowed(own.allowed, notes, []) }, run);
  for (const [j, note] of notes.entries()) {
    if (best === 'too-much') return best;
    if (!may(own, note, isStopped)) continue;
    own.spent.casesLeft--;
    const solved: Outcome = yield* solveCase({ ...own, allowed: narrowed(own.allowed, notes.slice(0, j), [note]) });
    if (solved === 'too-much' || (solved !== null && (best === null || solved.cost < best.cost))) best = solved;
  }
  return best;
}

function* solveAsIs({ chain, sections, allowed }: Case): Work<Outcome> {
  const solved = yield* sections.solve(allowed);
  if (solved === null || solved === 'too-much') return solved;
  return { cost: solved.cost, chosen: new Map([...allowed, ...solved.chosen]), chain, written: chain.task.notes.map((_, i) => i) };
}

/** The case that the whole run is open: its second pass is written out. */
function* solveOpen(own: Case, { jump, notes }: Run): Work<Outcome> {
  const { chain, allowed, spent } = own;
  spent.casesLeft--;
  const laid = unrolled(chain, jump, notes);
  if (laid === null) {
    spent.exact = false;
    return yield* solveAsIs(own);
  }
  const moved: Allowed = new Map([...allowed].map(([note, taken]) => [laid.written[note]!, taken]));
  const sections = yield* makeSections(laid.chain);
  const solved = yield* solveCase({ chain: laid.chain, sections, allowed: moved, spent });
  if (solved === null || solved === 'too-much') return solved;
  return { ...solved, cost: solved.cost - laid.counted, written: laid.written.map((at) => solved.written[at]!) };
}

/** Notes from a landing on that may all be open, and how they end: with one that must be stopped, where the run or the part ends, at another join's beginning, or before another landing. */
interface Run {
  readonly jump: Jump;
  readonly notes: readonly number[];
  readonly ends: 'stopped' | 'at-end' | 'at-join' | 'at-landing';
}

function runOf(own: Case, jump: Jump): Run {
  const { links } = own.chain;
  const [begins, lands] = [beginsOf(own.chain), landsOf(own.chain)];
  const notes: number[] = [];
  for (let note = jump.to; ; note++) {
    if (!may(own, note, isOpen)) return { jump, notes, ends: 'stopped' };
    notes.push(note);
    if (begins.has(note)) return { jump, notes, ends: 'at-join' };
    if (links.pred[note + 1] !== note) return { jump, notes, ends: 'at-end' };
    if (lands.has(note + 1)) return { jump, notes, ends: 'at-landing' };
  }
}

function isStopped(state: State): boolean {
  return !isOpen(state);
}

/** Whether a note has an allowed state of a kind. */
function may({ chain, allowed }: Case, note: number, kind: (state: State) => boolean): boolean {
  const taken = allowed.get(note);
  return chain.layer(note).states.some((state) => kind(state) && (taken === undefined || taken(state)));
}

function narrowed(allowed: Allowed, open: readonly number[], stopped: readonly number[]): Allowed {
  const both = new Map(allowed);
  const narrow = (note: number, kind: (state: State) => boolean): void => {
    const taken = allowed.get(note);
    both.set(note, taken ? (state) => kind(state) && taken(state) : kind);
  };
  for (const note of open) narrow(note, isOpen);
  for (const note of stopped) narrow(note, isStopped);
  return both;
}
