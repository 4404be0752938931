// What joins two notes: hammer and pull arcs on the tab, slides as straight lines on staff and tab.
import { furniture, lineShape, type Meaning, pathData, pathShape } from './make.ts';
import { halfStop, space, tabGap } from './measures.ts';
import type { FingeredNote } from './notes.ts';
import type { Shape } from './shapes.ts';
import type { DrawnStop } from './tab.ts';

const meaningOf = (role: 'hammer-arc' | 'slide', note: FingeredNote): Meaning => ({
  ...furniture(role),
  source: { from: note.scene.from, to: note.scene.to },
  note: note.scene.id,
});

const arcGap = 1;
const arcHeight = 4;
const arcThick = 1.4;

/** An arc from digit to digit, thick in the middle and thin at its ends. */
function arc(from: DrawnStop, to: DrawnStop): Shape {
  const y = Math.min(from.y, to.y) - halfStop - arcGap;
  const third = (to.x - from.x) / 3;
  const rise = (arcHeight * 4) / 3;
  const d = pathData(
    ...['M', from.x, y, 'C', from.x + third, y - rise, to.x - third, y - rise, to.x, y],
    ...['C', to.x - third, y - rise + arcThick, from.x + third, y - rise + arcThick, from.x, y, 'z'],
  );
  return pathShape(meaningOf('hammer-arc', to.note), d, 'filled');
}

const slidePen = 1.15;

const gapBetween = (from: DrawnStop, to: DrawnStop): number => to.x - to.halfWidth - from.x - from.halfWidth;

/** A slide between two digits: a straight line, rising or falling with the stops. */
function tabSlide(from: DrawnStop, to: DrawnStop): Shape {
  const gap = gapBetween(from, to);
  const clear = Math.min(1.5, gap / 4);
  const x1 = from.x + from.halfWidth + clear;
  const x2 = to.x - to.halfWidth - clear;
  const tilt = tabGap * (x2 - x1 < 1.1 * space ? 0.46 : 0.34) * (to.place.stop >= from.place.stop ? 1 : -1);
  return lineShape(meaningOf('slide', to.note), x1, from.y + tilt, x2, to.y - tilt, slidePen);
}

/** A scoop: a short line that rises into the digit, shorter yet where another stands close before it. */
function tabScoop(from: DrawnStop | undefined, to: DrawnStop): Shape {
  const gap = from?.string === to.string ? gapBetween(from, to) : Number.POSITIVE_INFINITY;
  const x2 = to.x - to.halfWidth - Math.min(1.2, gap / 4);
  return lineShape(meaningOf('slide', to.note), x2 - Math.min(6, gap / 2), to.y + 4, x2, to.y - 3, slidePen);
}

function staffSlide(from: FingeredNote, to: FingeredNote): Shape | null {
  const [a, b] = [from.heads[0]?.head, to.heads[0]?.head];
  if (a === undefined || b === undefined) return null;
  const clear = 1.6;
  const [x1, x2] = [a.x + a.width / 2 + clear, b.x - b.width / 2 - clear];
  if (x2 - x1 < 3) return null;
  const tilt = (b.y - a.y) / (b.x - a.x);
  return lineShape(meaningOf('slide', to), x1, a.y + (x1 - a.x) * tilt, x2, b.y - (b.x - x2) * tilt, slidePen);
}

function staffScoop(to: FingeredNote): Shape | null {
  const head = to.heads[0]?.head;
  if (head === undefined) return null;
  const x2 = head.x - head.width / 2 - 1.6;
  return lineShape(meaningOf('slide', to), x2 - 9, head.y + space, x2, head.y + 1, slidePen);
}

/** Joins of neighbouring notes of the voice, on the tab where both have stops, on the staff for slides. */
export function drawJoins(notes: readonly FingeredNote[], stops: readonly DrawnStop[]): Shape[] {
  const stopOf = new Map(stops.map((stop) => [stop.note, stop]));
  return notes.flatMap((note, i): Shape[] => {
    const before = notes[i - 1];
    const to = stopOf.get(note);
    const from = before === undefined ? undefined : stopOf.get(before);
    const attack = note.plan?.attack ?? (note.scene.marks.includes('slide') ? 'scoop' : 'pluck');
    const shapes: (Shape | null)[] = [];
    if ((attack === 'hammer' || attack === 'pull') && from && to) shapes.push(arc(from, to));
    if (attack === 'glide' && before !== undefined) {
      shapes.push(staffSlide(before, note));
      if (from && to) shapes.push(tabSlide(from, to));
    }
    if (attack === 'scoop') {
      shapes.push(staffScoop(note));
      if (to) shapes.push(tabScoop(from, to));
    }
    return shapes.filter((shape) => shape !== null);
  });
}
