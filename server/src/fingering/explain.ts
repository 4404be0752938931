// Why this finger and not that: the cost of a fingering told by its terms, and the difference of two fingerings of one task.
import type { Hand } from '../bass/types.ts';
import { fingerTerms } from './cost/fingers.ts';
import { moveTerms } from './cost/move.ts';
import { nodeTerms } from './cost/node.ts';
import { stringTerms, stringWay } from './cost/strings.ts';
import { type Weights, weights } from './cost/weights.ts';
import { afterStopped, freeMost } from './limits/time.ts';
import { playOrder, type Sounded } from './play-order.ts';
import type { Placing, Task } from './types.ts';

/** A term of the cost by the name of its weight, and its share in integer milli-units (1000 is about one shift of two semitones). */
export interface TermCost {
  readonly term: keyof Weights;
  readonly cost: number;
}

/**
 * What `other` costs more than `chosen`, both whole fingerings of `task`, by terms: the greatest differences first, in milli-units,
 * negative where `other` is the easier. The sum is exactly the difference of the costs the search gives. Terms that are equal are left out.
 */
export function explainDifference(task: Task, chosen: readonly Placing[], other: readonly Placing[]): readonly TermCost[] {
  const [own, others] = [termsOf(task, chosen), termsOf(task, other)];
  return [...new Set([...own.keys(), ...others.keys()])]
    .map((term) => ({ term, cost: (others.get(term) ?? 0) - (own.get(term) ?? 0) }))
    .filter(({ cost }) => cost !== 0)
    .sort((a, b) => Math.abs(b.cost) - Math.abs(a.cost) || (a.term < b.term ? -1 : 1));
}

type Amounts = Partial<Record<keyof Weights, number>>;

/** The terms of a whole fingering: a written note, a join of two notes and a way of the hand over the same notes count once, however often they sound. */
function termsOf(task: Task, placings: readonly Placing[]): ReadonlyMap<keyof Weights, number> {
  const order = playOrder(task);
  const paid = new Map<string, readonly TermCost[]>();
  let left: number | null = null;
  for (const [at, { note }] of order.entries()) {
    paid.set(`${note}`, noteTerms(task, placings[note]!));
    const before = order[at - 1];
    if (before) paid.set(`${before.note}>${note}`, joinTerms(placings[before.note]!, placings[note]!));
    if (isOpen(placings[note]!)) continue;
    if (left !== null) {
      const way = wayTerms(task, order, placings, left, at);
      if (way.length > 0)
        paid.set(
          `way ${order
            .slice(left, at + 1)
            .map((one) => one.note)
            .join('>')}`,
          way,
        );
    }
    left = at;
  }
  const sums = new Map<keyof Weights, number>();
  for (const { term, cost } of [...paid.values()].flat()) sums.set(term, (sums.get(term) ?? 0) + cost);
  return sums;
}

const isOpen = ({ places }: Placing): boolean => places.every(({ finger }) => finger === '0');
const handOf = ({ hand }: Placing): Hand | null => hand && { kind: hand.frame === 'thumb' ? 'thumb' : 'neck', place: hand.stop };

function noteTerms({ player }: Task, placing: Placing): readonly TermCost[] {
  const hand = handOf(placing);
  const stopped = placing.places.filter(({ finger }) => finger !== '0');
  return [
    { term: 'note', cost: weights.note },
    ...stopped.flatMap((place) => rounded(amounts(nodeTerms, (term) => term(player, { place, hand: hand! })))),
  ];
}

/** Strings, and fingers in turn on one string. */
function joinTerms(from: Placing, to: Placing): readonly TermCost[] {
  const way = stringWay(from.places, to.places);
  const [a, b] = [handOf(from), handOf(to)];
  const sameHand = a?.kind === b?.kind && a?.place === b?.place;
  const turns = from.places.flatMap((one) =>
    to.places
      .filter((other) => one.string === other.string && one.finger !== '0' && other.finger !== '0')
      .map((other) => ({ from: one, to: other, sameHand })),
  );
  return [
    ...rounded(amounts(stringTerms, (term) => term(way))),
    ...turns.flatMap((turn) => rounded(amounts(fingerTerms, (term) => term(turn)))),
  ];
}

/** A change of place, with the time since the note that was stopped last: over more open notes than are counted, that of the last of them. */
function wayTerms(task: Task, order: readonly Sounded[], placings: readonly Placing[], left: number, at: number): readonly TermCost[] {
  const [from, to] = [handOf(placings[order[left]!.note]!)!, handOf(placings[order[at]!.note]!)!];
  if (from.kind === to.kind && from.place === to.place) return [];
  const start = Math.max(left, at - freeMost - 1);
  const { duration } = task.notes[order[start]!.note]!;
  const open = order.slice(start + 2, at + 1).reduce((sum, { step }) => sum + step, 0);
  const available = open + afterStopped(task.player.limits, { step: order[start + 1]!.step, duration });
  return rounded(amounts(moveTerms, (term) => term(task.player, { from, to, available })));
}

function amounts<T>(terms: Readonly<Record<string, T>>, amountOf: (term: T) => number): Amounts {
  return Object.fromEntries(Object.entries(terms).map(([name, term]) => [name, amountOf(term)]));
}

/** Whole milli-units whose sum is the rounded sum, as the search counts: the greatest takes what rounding leaves. */
function rounded(by: Amounts): readonly TermCost[] {
  const parts = (Object.entries(by) as [keyof Weights, number][]).map(([term, amount]) => ({ term, exact: weights[term] * amount }));
  const whole = parts.map(({ term, exact }) => ({ term, cost: Math.round(exact) })).filter(({ cost }) => cost !== 0);
  const sum = Math.round(parts.reduce((total, { exact }) => total + exact, 0));
  const off = sum - whole.reduce((total, { cost }) => total + cost, 0);
  const greatest = whole.reduce<TermCost | null>((most, one) => (most === null || one.cost > most.cost ? one : most), null);
  return whole.map((one) => (one === greatest ? { ...one, cost: one.cost + off } : one));
}
