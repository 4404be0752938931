// The cheapest way through a chain, and what it looks like to the player.
import { handWay } from '../bass/index.ts';
import { type Chain, startCosts } from './chain.ts';
import { handOf, namedHand, noHand } from './hands.ts';
import { forwardStep, leastOf, sourceOf } from './passes.ts';
import { never } from './rules.ts';
import type { Allowed } from './sections.ts';
import type { Placing } from './types.ts';
import type { Work } from './work.ts';

/** Forward costs of each note, the index of the state each note takes, and the sum over all runs. */
export interface Pass {
  readonly costs: readonly Int32Array[];
  readonly path: readonly number[];
  readonly cost: number;
}

/** Passes forward over all notes with only `allowed` states; null where it gets stuck. */
export function* forwardPass(chain: Chain, allowed: Allowed): Work<Pass | null> {
  const costs: Int32Array[] = [];
  for (let i = 0; i < chain.task.notes.length; i++) {
    const pred = chain.links.pred[i]!;
    const reached = pred < 0 ? startCosts(chain.layer(i)) : forwardStep(costs[pred]!, chain.table(i));
    const may = allowed.get(i);
    const own = may ? reached.map((cost, state) => (may(chain.layer(i).states[state]!) ? cost : never)) : reached;
    if (leastOf(own) < 0) return null;
    costs.push(own);
    yield pred < 0 ? own.length : costs[pred]!.length * own.length;
  }
  return { costs, ...backtrack(chain, costs) };
}

/** From each end back to its beginning; ties go to the first state. */
function backtrack({ links, table }: Chain, costs: readonly Int32Array[]): { path: readonly number[]; cost: number } {
  const path = new Array<number>(costs.length).fill(-1);
  let cost = 0;
  for (let i = costs.length - 1; i >= 0; i--) {
    if (path[i] === -1) {
      path[i] = leastOf(costs[i]!);
      cost += costs[i]![path[i]!]!;
    }
    const pred = links.pred[i]!;
    if (pred >= 0 && path[pred] === -1) path[pred] = sourceOf(costs[pred]!, table(i), path[i]!, costs[i]![path[i]!]!);
  }
  return { path, cost };
}

/** A path as places and moves of the hand. */
export function placingsOf({ task, links, layer }: Chain, path: readonly number[]): readonly Placing[] {
  const { mensur } = task.player.setup;
  return path.map((at, i) => {
    const state = layer(i).states[at]!;
    const pred = links.pred[i]!;
    const before = pred < 0 ? noHand : layer(pred).states[path[pred]!]!.hand;
    const shift = before !== noHand && before !== state.hand;
    const travel = shift ? handWay(mensur, handOf(before)!, handOf(state.hand)!) : 0;
    return { places: state.places, hand: namedHand(state.hand, state.places), shift, travel };
  });
}
