// The cheapest way through a chain, and what it looks like to the player.
import { handWay } from '../bass/index.ts';
import { type Chain, startCosts } from './chain.ts';
import { handOf, namedHand, noHand } from './hands.ts';
import { forwardStep, leastOf, sourceOf } from './passes.ts';
import type { Reached } from './rows.ts';
import { never } from './rules.ts';
import type { Allowed } from './sections.ts';
import type { Placing } from './types.ts';
import type { Work } from './work.ts';

/** Forward costs of each note less the least of them, the index of the state each note takes, and the sum over all runs. */
export interface Pass {
  readonly costs: readonly Int32Array[];
  /** What each note adds to the least cost of its run. */
  readonly least: readonly number[];
  readonly path: readonly number[];
  readonly cost: number;
}

/** Passes forward over all notes with only `allowed` states; null where it gets stuck. */
export function* forwardPass(chain: Chain, allowed: Allowed): Work<Pass | null> {
  const { rows } = chain.model;
  const reached: Reached[] = [];
  for (let i = 0; i < chain.task.notes.length; i++) {
    const pred = chain.links.pred[i]!;
    const free =
      pred < 0
        ? rows.lowered(startCosts(chain.layer(i)))
        : rows.after(reached[pred]!.row, chain.table(i), (before) => rows.lowered(forwardStep(before, chain.table(i))));
    const own = narrowed(chain, i, free, allowed);
    if (leastOf(own.row.cells) < 0) return null;
    reached.push(own);
    yield pred < 0 ? own.row.cells.length : reached[pred]!.row.cells.length * own.row.cells.length;
  }
  return { costs: reached.map(({ row }) => row.cells), least: reached.map(({ least }) => least), ...backtrack(chain, reached) };
}

/** A row with only the allowed states of its note. */
function narrowed({ model, layer }: Chain, index: number, reached: Reached, allowed: Allowed): Reached {
  const may = allowed.get(index);
  if (may === undefined) return reached;
  const own = model.rows.lowered(reached.row.cells.map((cost, state) => (may(layer(index).states[state]!) ? cost : never)));
  return { row: own.row, least: own.least + reached.least };
}

/** From each end back to its beginning; ties go to the first state. A run costs what each note of it adds to the least. */
function backtrack({ links, table }: Chain, reached: readonly Reached[]): { path: readonly number[]; cost: number } {
  const path = new Array<number>(reached.length).fill(-1);
  let cost = 0;
  for (let i = reached.length - 1; i >= 0; i--) {
    const { cells } = reached[i]!.row;
    if (path[i] === -1) {
      path[i] = leastOf(cells);
      for (let at = i; at >= 0; at = links.pred[at]!) cost += reached[at]!.least;
    }
    const pred = links.pred[i]!;
    if (pred >= 0 && path[pred] === -1)
      path[pred] = sourceOf(reached[pred]!.row.cells, table(i), path[i]!, cells[path[i]!]! + reached[i]!.least);
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
