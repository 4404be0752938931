// Choosing how far each phrase of a melody is thinned: exactly, in a stated order, so that a phrase that can be played whole stays whole.
import type { Thinning } from './thinning.ts';

/** The rungs, least first. */
export const rungs: readonly Thinning[] = ['none', 'slur', 'run', 'quarter'];

/** A line made with one rung a phrase. */
export interface Judged<T> {
  readonly made: T;
  /** Passages that no hand plays so: of each, the indices of the phrases whose rungs decide it. */
  readonly troubles: readonly (readonly number[])[];
}

export interface LeastThinning<T> extends Judged<T> {
  /** One a phrase. `troubles` left are those that no thinning mends. */
  readonly rungs: readonly Thinning[];
  /** Whether the search came to its end; false only for tunes of very many different phrases. */
  readonly exact: boolean;
}

/** Lines judged before the search raises every phrase in trouble at once. */
const mostJudged = 400;

/** One rung (an index) for each different phrase. */
type Choice = readonly number[];

/**
 * The choice with the fewest phrases at the highest rung, then at the next lower one, and so on; of equals the one that leaves the
 * earlier phrases whole. Phrases with equal keys are thinned alike. Best first: each choice in trouble is left by raising one of the
 * phrases of a trouble by a rung. Since only their rungs decide it, no better choice is passed by.
 */
export function leastThinning<T>(keys: readonly string[], judge: (rungs: readonly Thinning[]) => Judged<T>): LeastThinning<T> {
  const different = [...new Set(keys)];
  const group = keys.map((key) => different.indexOf(key));
  const perPhrase = (choice: Choice): readonly number[] => group.map((g) => choice[g]!);
  const waiting: Choice[] = [different.map(() => 0)];
  const seen = new Set<string>();
  for (let count = 1; ; count++) {
    waiting.sort((a, b) => order(perPhrase(a), perPhrase(b)));
    const choice = waiting.shift()!;
    const chosen = perPhrase(choice).map((rung) => rungs[rung]!);
    const judged = judge(chosen);
    const raisable = judged.troubles.map((phrases) => groupsToRaise(phrases, group, choice)).find((groups) => groups.length > 0);
    if (raisable === undefined) return { ...judged, rungs: chosen, exact: count <= mostJudged };
    const next = count < mostJudged ? raisable.map((g) => raised(choice, [g])) : [raised(choice, raisable)];
    if (count >= mostJudged) waiting.length = 0;
    for (const one of next) {
      if (!seen.has(one.join())) waiting.push(one);
      seen.add(one.join());
    }
  }
}

const groupsToRaise = (phrases: readonly number[], group: readonly number[], choice: Choice): readonly number[] =>
  [...new Set(phrases.map((phrase) => group[phrase]!))].filter((g) => choice[g]! < rungs.length - 1);

const raised = (choice: Choice, groups: readonly number[]): Choice => choice.map((rung, g) => (groups.includes(g) ? rung + 1 : rung));

/** Which of two choices thins less: below 0 if `a` does. */
export function order(a: readonly number[], b: readonly number[]): number {
  for (let rung = rungs.length - 1; rung > 0; rung--) {
    const more = a.filter((one) => one === rung).length - b.filter((one) => one === rung).length;
    if (more !== 0) return more;
  }
  const at = a.findIndex((one, i) => one !== b[i]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}
