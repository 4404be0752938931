// The marks of one system: a changed system takes over the elements of the one before and changes what differs.
import type { Shape } from '../../server/src/drawing/index.ts';
import { type Painted, paintMark, sortOf } from './paint.ts';
import { patchChildren } from './patch.ts';

/** By the sort of each, in order. */
function bySort<T>(all: readonly T[], sortFor: (each: T) => string): Map<string, T[]> {
  const sorts = new Map<string, T[]>();
  for (const each of all) {
    const sort = sortFor(each);
    const same = sorts.get(sort);
    if (same === undefined) sorts.set(sort, [each]);
    else same.push(each);
  }
  return sorts;
}

const saysSame = (mark: Painted, shape: Shape): boolean => (mark.text?.said ?? null) === (shape.kind === 'text' ? shape.text : null);

/**
 * The old mark for each shape of its sort, null for a new one. From the front while they say the same, the rest from
 * the back: a note put in gets new marks, and those after it only move.
 */
function pairUp(old: readonly Painted[], shapes: readonly Shape[]): (Painted | null)[] {
  const fewer = Math.min(old.length, shapes.length);
  let front = 0;
  while (front < fewer && saysSame(old[front]!, shapes[front]!)) front++;
  const more = shapes.length - old.length;
  return shapes.map((_, i) => (i < front ? old[i]! : i - more < front ? null : old[i - more]!));
}

/** Returns what shows shapes in `parent`: one child a shape, in order. */
export function makeMarks(parent: SVGElement): (shapes: readonly Shape[]) => void {
  let marks: readonly Painted[] = [];
  return (shapes) => {
    const old = bySort(marks, ({ sort }) => sort);
    const pairs = new Map<Shape, Painted>();
    for (const [sort, same] of bySort(shapes, sortOf)) {
      const before = pairUp(old.get(sort) ?? [], same);
      same.forEach((shape, i) => void pairs.set(shape, paintMark(shape, sort, before[i]!)));
    }
    marks = shapes.map((shape) => pairs.get(shape)!);
    patchChildren(
      parent,
      marks.map(({ element }) => element),
    );
  };
}
