// A pass that goes by on open strings alone, written out once more: the hand it carries need not be that of the first pass.
import { type Chain, makeChain } from './chain.ts';
import { stringCost, stringWay } from './cost/strings.ts';
import type { State } from './layers.ts';
import { playOrder, type Sounded } from './play-order.ts';
import type { Jump, Pin, Task, TaskNote } from './types.ts';

/** The chain with the pass written out, where each note of the old one stands in it, and what of its cost was in the old one already. */
export interface Unrolled {
  readonly chain: Chain;
  readonly written: readonly number[];
  readonly counted: number;
}

/**
 * The chain whose task has the notes of `run`, played on open strings after `jump`, as notes of their own. null where that would not weigh
 * the same: a note that never sounds, two open grips for one note, or a way on from the run that the first pass takes too.
 */
export function unrolled(chain: Chain, jump: Jump, run: readonly number[]): Unrolled | null {
  const { model, task } = chain;
  const order = playOrder(task);
  const at = order.findIndex(({ note, step }, k) => k > 0 && order[k - 1]!.note === jump.from && note === jump.to && step === jump.gap);
  const opens = run.map((note) => openStates(chain, note));
  if (at < 0 || opens.some((own) => own.length !== 1) || new Set(order.map(({ note }) => note)).size < task.notes.length) return null;
  const copyOf = (k: number): number => (k >= at && k < at + run.length ? task.notes.length + k - at : order[k]!.note);
  const again = order.map(({ step }, k) => ({ note: copyOf(k), step }));
  const next = order[at + run.length]?.note;
  if (next !== undefined && followsIn(again, run.at(-1)!, next)) return null;
  const notes = [...task.notes, ...run.map((note) => pinnedOpen(task.notes[note]!))];
  const { renamed, laid } = layOut(task, notes, again);
  return { chain: makeChain(model, laid), written: task.notes.map((_, i) => renamed.get(i)!), counted: costOfRun(chain, opens.flat()) };
}

/** The open grips of a note, each by one of its states. */
function openStates(chain: Chain, note: number): readonly State[] {
  const open = chain.layer(note).states.filter(({ free }) => free > 0);
  return open.filter((state, i) => open.findIndex(({ grip }) => grip === state.grip) === i);
}

function followsIn(order: readonly Sounded[], from: number, to: number): boolean {
  return order.some(({ note }, k) => note === to && order[k - 1]?.note === from);
}

function pinnedOpen(note: TaskNote): TaskNote {
  return { ...note, pins: note.pins.map((pin): Pin => ({ ...pin, finger: '0' })) };
}

/** Notes numbered anew as they first sound, with the joins of that order. */
function layOut(task: Task, notes: readonly TaskNote[], order: readonly Sounded[]): { renamed: ReadonlyMap<number, number>; laid: Task } {
  const renamed = new Map<number, number>();
  const placed: TaskNote[] = [];
  const breaks: number[] = [];
  const jumps = new Map<string, Jump>();
  order.forEach(({ note, step }, k) => {
    const from = k === 0 ? -1 : renamed.get(order[k - 1]!.note)!;
    const known = renamed.get(note);
    const to = known ?? placed.length;
    if (known === undefined) {
      renamed.set(note, to);
      placed.push({ ...notes[note]!, onset: (placed[from]?.onset ?? 0) + step });
    }
    const straight = to === from + 1 && placed[to]!.onset - (placed[from]?.onset ?? 0) === step;
    if (known === undefined && !straight && k > 0) breaks.push(to);
    if (!straight && k > 0) jumps.set(`${from} ${to}`, { from, to, gap: step });
  });
  return { renamed, laid: { ...task, notes: placed, jumps: [...jumps.values()], breaks } };
}

/** What the run's notes and the steps between them cost, which the written ones have paid. */
function costOfRun({ model }: Chain, opens: readonly State[]): number {
  const own = opens.reduce((sum, { cost }) => sum + cost, 0);
  return opens.slice(1).reduce((sum, { places }, i) => sum + stringCost(model.weights, stringWay(opens[i]!.places, places)), own);
}

/** Whether a state leaves all strings open. */
export function isOpen({ free }: State): boolean {
  return free > 0;
}
