// Min-plus passes over tables: costs of the best way to each state, from each state, and the path.
import type { Table } from './model.ts';
import { never } from './rules.ts';

/** Costs after one step: least over the sources. */
export function forwardStep(before: Int32Array, { width, cells }: Table): Int32Array {
  const after = new Int32Array(width).fill(never);
  for (let a = 0, at = 0; a < before.length; a++) {
    const cost = before[a]!;
    if (cost >= never) {
      at += width;
      continue;
    }
    for (let b = 0; b < width; b++, at++) {
      const sum = cost + cells[at]!;
      if (sum < after[b]!) after[b] = sum;
    }
  }
  return after;
}

/** Costs to the end before one step: least over the targets. */
export function backwardStep(after: Int32Array, { width, cells }: Table): Int32Array {
  const before = new Int32Array(cells.length / Math.max(1, width)).fill(never);
  for (let a = 0, at = 0; a < before.length; a++) {
    let least = never;
    for (let b = 0; b < width; b++, at++) {
      const sum = cells[at]! + after[b]!;
      if (sum < least) least = sum;
    }
    before[a] = least;
  }
  return before;
}

/** Index of the first least cost, or -1 where there is no way. */
export function leastOf(costs: Int32Array): number {
  let best = -1;
  let least = never;
  for (let i = 0; i < costs.length; i++) {
    if (costs[i]! < least) {
      least = costs[i]!;
      best = i;
    }
  }
  return best;
}

/** The first source through which target `b` has its cost. */
export function sourceOf(before: Int32Array, { width, cells }: Table, b: number, cost: number): number {
  for (let a = 0; a < before.length; a++) if (before[a]! < never && before[a]! + cells[a * width + b]! === cost) return a;
  return -1;
}
