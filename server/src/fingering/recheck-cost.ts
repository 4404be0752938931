// Rechecks that nothing is cheaper than a fingering said to be the best, and that no hand plays a window: by the rules told once more, edge by edge.
import type { Hand } from '../bass/types.ts';
import {
  type Before,
  handsAlike,
  joinCost,
  type Stand,
  standAfter,
  standAtFirst,
  type Taking,
  takingsOf,
  timeAfter,
  wayCost,
} from './recheck-ways.ts';
import type { Certificate, Placing, Reached, Task } from './types.ts';

/** A note as it sounds: its placing, and the time from the one before in microseconds (null: nothing is known to come before it). */
export interface PlayedNote {
  readonly note: number;
  readonly step: number | null;
  readonly placing: Placing | null;
}

/** What is wrong with a claim: the note, and why. */
export interface Refutation {
  readonly note: number;
  readonly why: string;
}

/**
 * What notes played so cost, milli-units: each written note once, each join of two notes once, each way of the hand once, however often
 * they sound. Or where they cannot be played so.
 */
export function costAsPlayed(task: Task, played: readonly PlayedNote[]): number | Refutation {
  const paid = new Map<string, number>();
  let stands: { readonly at: number; readonly stand: Stand }[] = [];
  for (const [at, { note, step, placing }] of played.entries()) {
    const taking = takingsOf(task, note).find((one) => shows(one, placing!));
    if (taking === undefined) return { note, why: 'There is no such way to take the note.' };
    if (step === null) stands = [];
    const from = stands.at(-1)?.stand;
    const stand = from ? standAfter(from, taking) : standAtFirst(taking);
    paid.set(`${note}`, taking.cost);
    if (from) {
      const back = stands
        .toReversed()
        .map(({ at: i }): Before => ({ step: played[i + 1]!.step!, duration: task.notes[played[i]!.note]!.duration }));
      const join = joinCost(task, from, stand, note, back);
      const way = wayCost(task, from.hand, stand.hand, timeAfter(task, back, from.free));
      if (join === null || way === null) return { note, why: 'A limit forbids going on like this.' };
      const first = stands.findLast(({ stand: { taking } }) => taking.hand !== null)?.at ?? at;
      paid.set(`${played[at - 1]!.note}>${note}`, join);
      if (way > 0)
        paid.set(
          `way ${played
            .slice(first, at + 1)
            .map((one) => one.note)
            .join('>')}`,
          way,
        );
    }
    stands.push({ at, stand });
  }
  return [...paid.values()].reduce((sum, cost) => sum + cost, 0);
}

function shows({ places, hand }: Taking, placing: Placing): boolean {
  const named: Hand | null = placing.hand && { kind: placing.hand.frame === 'thumb' ? 'thumb' : 'neck', place: placing.hand.stop };
  return keyOf(places) === keyOf(placing.places) && (hand === null || handsAlike(hand, named));
}

const keyOf = (places: Taking['places']): string =>
  places.map(({ string, stop, finger, harmonic }) => `${string}/${stop}/${finger}${harmonic ? 'h' : ''}`).join();
const stateKey = (places: Taking['places'], hand: Hand | null, free: number): string =>
  `${keyOf(places)} ${hand ? hand.kind + hand.place : ''} ${free}`;

/** The note before each along the notes as written, and the time from it; null at the start of a run. A second ending hangs on the note that first jumps to it. */
function predecessor({ notes, jumps, breaks }: Task, index: number): { readonly note: number; readonly step: number } | null {
  if (index === 0) return null;
  if (!breaks.includes(index)) return { note: index - 1, step: notes[index]!.onset - notes[index - 1]!.onset };
  const jump = jumps.find(({ from, to }) => to === index && from < to);
  return jump ? { note: jump.from, step: jump.gap } : null;
}

function backFrom(task: Task, index: number): readonly Before[] {
  const back: Before[] = [];
  for (let at = predecessor(task, index); at && back.length <= 5; at = predecessor(task, at.note))
    back.push({ step: at.step, duration: task.notes[at.note]!.duration });
  return back;
}

/** Least sums to the ends of the runs, if no state can be come to for less than its potential; else where one can. */
export function boundOf(task: Task, certificate: Certificate): number | Refutation {
  if (certificate.length !== task.notes.length) return { note: 0, why: 'The certificate is not of these notes.' };
  const isEnd = task.notes.map(() => true);
  for (let note = 0; note < task.notes.length; note++) {
    const before = predecessor(task, note);
    if (before) isEnd[before.note] = false;
    if (cheaperAt(task, certificate, note, before?.note ?? null))
      return { note, why: 'A state can be come to for less than its potential.' };
  }
  const ends = certificate.flatMap((reached, note) => (isEnd[note] ? [Math.min(...reached.map(({ cost }) => cost))] : []));
  // Runs that share their beginning are not summed: the dearest of them is a bound too.
  return task.jumps.length === 0 ? ends.reduce((sum, end) => sum + end, 0) : Math.max(0, ...ends);
}

/** Whether every pass that is come back to, as short as it can be, has a note that is never taken on open strings. */
export function stopsInEachPass(task: Task): boolean {
  return task.jumps.every(({ to }) => {
    const last = Math.min(...task.jumps.map(({ from }) => from).filter((from) => from >= to), task.notes.length - 1);
    const pass = Array.from({ length: last - to + 1 }, (_, i) => to + i);
    return pass.some((note) => takingsOf(task, note).every(({ hand }) => hand !== null));
  });
}

function cheaperAt(task: Task, certificate: Certificate, note: number, from: number | null): boolean {
  const potential = new Map(certificate[note]!.map(({ places, hand, free, cost }) => [stateKey(places, hand, free), cost]));
  const isLess = ({ taking, hand, free }: Stand, cost: number): boolean =>
    cost < (potential.get(stateKey(taking.places, hand, free)) ?? Number.POSITIVE_INFINITY);
  const takings = takingsOf(task, note);
  if (from === null) return takings.some((taking) => isLess(standAtFirst(taking), taking.cost));
  const back = backFrom(task, note);
  return certificate[from]!.some((state) =>
    takings.some((taking) => {
      const stand = standAfter(standOf(state), taking);
      const cost = stepCost(task, standOf(state), stand, note, back);
      return cost !== null && isLess(stand, state.cost + cost);
    }),
  );
}

const standOf = ({ places, hand, free }: Reached): Stand => ({ taking: { places, hand: free === 0 ? hand : null, cost: 0 }, hand, free });

function stepCost(task: Task, from: Stand, to: Stand, note: number, back: readonly Before[]): number | null {
  const join = joinCost(task, from, to, note, back);
  const way = join === null ? null : wayCost(task, from.hand, to.hand, timeAfter(task, back, from.free));
  return way === null ? null : to.taking.cost + join! + way;
}

/** The first note from `first` to `last` that no hand comes to, jumps apart, or null: sets of stands are carried forward, the hand free at first. */
export function stuckFrom(task: Task, first: number, last: number): number | null {
  let stands: readonly Stand[] = takingsOf(task, first).map(standAtFirst);
  for (let note = first; ; note++) {
    if (stands.length === 0) return note;
    if (note === last) return null;
    const back = backFrom(task, note + 1);
    const next = new Map<string, Stand>();
    for (const taking of takingsOf(task, note + 1)) {
      for (const from of stands) {
        const to = standAfter(from, taking);
        const key = stateKey(taking.places, to.hand, to.free);
        if (!next.has(key) && stepCost(task, from, to, note + 1, back) !== null) next.set(key, to);
      }
    }
    stands = [...next.values()];
  }
}
