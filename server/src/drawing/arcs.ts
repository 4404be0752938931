// Arcs of hammer-ons and pull-offs on the tab.
import { pathData, pathShape } from './make.ts';
import { halfStop } from './measures.ts';
import { joinMeaning } from './notes.ts';
import type { Shape } from './shapes.ts';
import type { DrawnStop } from './tab.ts';

const gap = 1;
const height = 4;
const thick = 1.4;

/** Where an arc stands: over its digits, or under them where another digit stands right above. `way` is 1 upwards. */
interface ArcPlace {
  readonly y: number;
  readonly way: 1 | -1;
}

function placeOf(ends: readonly DrawnStop[], all: readonly DrawnStop[]): ArcPlace {
  const covered = (end: DrawnStop): boolean => all.some(({ string, x }) => string === end.string - 1 && Math.abs(x - end.x) < 2 * halfStop);
  const way = ends.some(covered) ? -1 : 1;
  return { y: ends[0]!.y - way * (halfStop + gap), way };
}

/** A filled arc from x1 to x2, thin where it meets a digit; an end that is open to another system stays high and thick. */
function arcPath(x1: number, x2: number, { y, way }: ArcPlace, open: 'left' | 'right' | 'none'): string {
  const third = (x2 - x1) / 3;
  const bow = y - way * (open === 'none' ? (height * 4) / 3 : height);
  const back = bow + way * thick;
  const [left, leftBack] = open === 'left' ? [bow, back] : [y, y];
  const [right, rightBack] = open === 'right' ? [bow, back] : [y, y];
  return pathData(
    ...['M', x1, left, 'C', x1 + third, bow, x2 - third, bow, x2, right],
    ...['L', x2, rightBack, 'C', x2 - third, back, x1 + third, back, x1, leftBack, 'z'],
  );
}

/** An arc between two stops of a string; `all` are the stops of the tab, which it keeps clear of. */
export function arcBetween(from: DrawnStop, to: DrawnStop, all: readonly DrawnStop[]): Shape {
  return pathShape(joinMeaning('hammer-arc', to.note), arcPath(from.x, to.x, placeOf([from, to], all), 'none'), 'filled');
}

/** Half an arc, from a stop to x, where the system ends or begins. */
export function halfArc(stop: DrawnStop, x: number, all: readonly DrawnStop[]): Shape {
  const place = placeOf([stop], all);
  const path = x < stop.x ? arcPath(x, stop.x, place, 'left') : arcPath(stop.x, x, place, 'right');
  return pathShape(joinMeaning('hammer-arc', stop.note), path, 'filled');
}
