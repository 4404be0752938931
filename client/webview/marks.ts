// The marks of one system: a changed system takes over the elements of the one before and changes what differs.
import type { Shape } from '../../server/src/drawing/index.ts';
import { type Painted, paintMark, sortOf } from './paint.ts';
import { patchChildren } from './patch.ts';

/** Marks by sort, each sort in order. */
function bySort(marks: readonly Painted[]): Map<string, Painted[]> {
  const sorts = new Map<string, Painted[]>();
  for (const mark of marks) {
    const same = sorts.get(mark.sort);
    if (same === undefined) sorts.set(mark.sort, [mark]);
    else same.push(mark);
  }
  return sorts;
}

/** Returns what shows shapes in `parent`: one child a shape, in order. */
export function makeMarks(parent: SVGElement): (shapes: readonly Shape[]) => void {
  let marks: readonly Painted[] = [];
  return (shapes) => {
    const old = bySort(marks);
    marks = shapes.map((shape) => {
      const sort = sortOf(shape);
      return paintMark(shape, sort, old.get(sort)?.shift() ?? null);
    });
    patchChildren(
      parent,
      marks.map(({ element }) => element),
    );
  };
}
