// The certificate of a fingering: what it costs at least to come to each state of each note, so that anyone can see that nothing is cheaper.
import type { Chain } from './chain.ts';
import { handOf } from './hands.ts';
import type { Pass } from './paths.ts';
import { never } from './rules.ts';
import type { Certificate } from './types.ts';

/** The certificate of a forward pass. */
export function certificateOf({ links, layer }: Chain, { costs, least }: Pass): Certificate {
  const base: number[] = [];
  return costs.map((own, note) => {
    base.push((base[links.pred[note]!] ?? 0) + least[note]!);
    return layer(note)
      .states.map(({ places, hand, free }, at) => ({ places, hand: handOf(hand), free, cost: own[at]! }))
      .filter(({ cost }) => cost < never)
      .map((state) => ({ ...state, cost: base[note]! + state.cost }));
  });
}
