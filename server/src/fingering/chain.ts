// A task laid out as layers and tables along its links.
import type { Layer } from './layers.ts';
import { freeMost, type Passed, type Timing, timingAfter } from './limits/time.ts';
import { type Links, linksOf, walkBack } from './links.ts';
import type { Model, Table } from './model.ts';
import type { Task } from './types.ts';

/** The graph of a task, made as far as it is asked for: layer of each note and table of the step into it. */
export interface Chain {
  readonly model: Model;
  readonly task: Task;
  readonly links: Links;
  /** Layer of note `index`; those before it on its run are made first. */
  layer(index: number): Layer;
  /** Table of the step into note `index` from its predecessor. */
  table(index: number): Table;
}

/** The chain of a whole task. */
export function makeChain(model: Model, task: Task): Chain {
  const links = linksOf(task);
  const layers: Layer[] = [];
  const tables: (Table | undefined)[] = [];
  const layer = (index: number): Layer => {
    for (let i = layers.length; i <= index; i++) {
      const pred = links.pred[i]!;
      layers.push(model.layers.layerFor(task.notes[i]!, pred < 0 ? model.layers.start : layers[pred]!.carried));
    }
    return layers[index]!;
  };
  const table = (index: number): Table => {
    const known = tables[index];
    if (known) return known;
    const to = layer(index);
    const from = layers[links.pred[index]!]!;
    const made = model.tableFor(from, to, task.notes[index]!.articulation, passedBefore(task, links, index, from.freeMost));
    tables[index] = made;
    return made;
  };
  return { model, task, links, layer, table };
}

/** Times for the move into note `index`. */
export function timingInto(model: Model, task: Task, links: Links, index: number): Timing {
  return timingAfter(model.player.limits, passedBefore(task, links, index, freeMost));
}

/** Notes passed before note `index`, nearest first, as many as times depend on where at most `free` open notes are behind it. */
export function passedBefore(task: Task, links: Links, index: number, free: number): readonly Passed[] {
  return walkBack(links, index, free + 1).map(({ note, step }) => ({ step, duration: task.notes[note]!.duration }));
}

/** Part of a task as a task of its own, notes `first` to `last` in a row, with a free hand at its start. */
export function cutOut(task: Task, first: number, last: number): Task {
  return { ...task, notes: task.notes.slice(first, last + 1), jumps: [], breaks: [] };
}

/** Costs of the states of a first note. */
export function startCosts(layer: Layer): Int32Array {
  return Int32Array.from(layer.states, (state) => state.cost);
}
