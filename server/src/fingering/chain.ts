// A stretch of notes as layers and tables, one after another.
import type { Carried, Layer } from './layers.ts';
import { timingInto } from './limits/time.ts';
import type { Model, Table } from './model.ts';
import type { Task } from './types.ts';

/** Layers of notes `first`, `first + 1`, ...; `tables[i]` leads into `layers[i]` (null into the first). */
export interface Chain {
  readonly first: number;
  readonly layers: readonly Layer[];
  readonly tables: readonly (Table | null)[];
}

/** The layer of note `index` after `before`. */
export function layerOf(model: Model, task: Task, index: number, before: Carried): Layer {
  return model.layers.layerFor(task.notes[index]!, before);
}

/** The table of the step from note `to - 1` into note `to`. */
export function tableInto(model: Model, task: Task, to: number, from: Layer, layer: Layer): Table {
  return model.tableFor(from, layer, task.notes[to]!.articulation, timingInto(model.player.limits, task.notes, to));
}

/** Costs of the states of a first note. */
export function startCosts(layer: Layer): Int32Array {
  return Int32Array.from(layer.states, (state) => state.cost);
}
