// Other answers for a note, and what each costs the whole part more than the best.
import type { Joins } from './cases.ts';
import type { Chain } from './chain.ts';
import { namedHand } from './hands.ts';
import type { State } from './layers.ts';
import { backwardStep } from './passes.ts';
import type { Pass } from './paths.ts';
import { never } from './rules.ts';

import type { Alternative, Place, Placing } from './types.ts';
import { finish } from './work.ts';

/** What the player sees of a note: string, stop, finger of each head. */
export function seen(places: readonly Place[]): string {
  return places.map(({ string, stop, finger }) => `${string}/${stop}/${finger}`).join();
}

/** Alternatives in a part without joins: cost to a state and from it, less the best. */
export function makeAlternatives(chain: Chain, pass: Pass): (note: number) => readonly Alternative[] {
  const toEnd = endCosts(chain, pass);
  return (note) => {
    const { states } = chain.layer(note);
    const sums = states.map((_, i) => pass.costs[note]![i]! + toEnd[note]![i]!);
    const least = sums[pass.path[note]!]!;
    return ranked(states, pass.path[note]!, (state) => sums[state]! - least);
  };
}

/** Cost from each state of each note to the end of its run. */
function endCosts({ links, table }: Chain, { costs }: Pass): readonly Int32Array[] {
  const toEnd = costs.map((own) => new Int32Array(own.length));
  for (let i = costs.length - 1; i > 0; i--) if (links.pred[i] === i - 1) toEnd[i - 1]!.set(backwardStep(toEnd[i]!, table(i)));
  return toEnd;
}

/** Alternatives in a part with repeats: the whole is solved again for each place the note may take. */
export function makeJoinedAlternatives(
  chain: Chain,
  joins: Joins,
  placings: readonly Placing[],
  best: number,
): (note: number) => readonly Alternative[] {
  return (note) => {
    const { states } = chain.layer(note);
    const regrets = new Map<string, number>();
    for (const key of new Set(states.map(({ places }) => seen(places)))) {
      const solved = finish(joins.solve(new Map([[note, ({ places }) => seen(places) === key]])));
      regrets.set(key, solved === null || solved === 'too-much' ? never : solved.cost - best);
    }
    const chosen = stateOf(states, placings[note]!);
    return ranked(states, chosen, (state) => regrets.get(seen(states[state]!.places))!);
  };
}

/** The state a placing shows. A pass written out may carry a hand that no written pass does: then the first with its places. */
function stateOf(states: readonly State[], { places, hand }: Placing): number {
  const alike = [...states.keys()].filter((at) => seen(states[at]!.places) === seen(places));
  return alike.find((at) => namedHand(states[at]!.hand, places)?.stop === hand?.stop) ?? alike[0]!;
}

/** Each place once, cheapest first, the chosen one first of all. */
function ranked(states: readonly State[], chosen: number, regretOf: (state: number) => number): readonly Alternative[] {
  const order = [...states.keys()].sort((a, b) => regretOf(a) - regretOf(b) || a - b);
  const found = new Map<string, Alternative>();
  for (const at of [chosen, ...order]) {
    const { places, hand } = states[at]!;
    const regret = at === chosen ? 0 : regretOf(at);
    if (regret < never / 2 && !found.has(seen(places))) found.set(seen(places), { places, hand: namedHand(hand, places), regret });
  }
  return [...found.values()];
}
