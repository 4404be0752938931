// Slides: straight lines on staff and tab, between two notes, into one from below, or to and from another system.
import { lineShape } from './make.ts';
import { space, tabGap } from './measures.ts';
import { type FingeredNote, joinMeaning } from './notes.ts';
import type { Shape } from './shapes.ts';
import type { DrawnStop } from './tab.ts';

const pen = 1.15;

export const gapBetween = (from: DrawnStop, to: DrawnStop): number => to.x - to.halfWidth - from.x - from.halfWidth;

/** A line on the tab about y, rising or falling with the stops. */
function onTab(note: FingeredNote, x1: number, x2: number, y: number, rise: number): Shape {
  const tilt = tabGap * (x2 - x1 < 1.1 * space ? 0.46 : 0.34) * (rise >= 0 ? 1 : -1);
  return lineShape(joinMeaning('slide', note), x1, y + tilt, x2, y - tilt, pen);
}

/** Between a digit and a slide, where there is room. */
const clearOfStop = 1.5;

export function tabSlide(from: DrawnStop, to: DrawnStop): Shape {
  const clear = Math.min(clearOfStop, gapBetween(from, to) / 4);
  return onTab(to.note, from.x + from.halfWidth + clear, to.x - to.halfWidth - clear, to.y, to.place.stop - from.place.stop);
}

/** A scoop: a short line that rises into the digit, shorter yet where another stands close before it. */
export function tabScoop(from: DrawnStop | undefined, to: DrawnStop): Shape {
  const gap = from?.string === to.string ? gapBetween(from, to) : Number.POSITIVE_INFINITY;
  const x2 = to.x - to.halfWidth - Math.min(1.2, gap / 4);
  return lineShape(joinMeaning('slide', to.note), x2 - Math.min(6, gap / 2), to.y + 4, x2, to.y - 3, pen);
}

/** Between a head, its accidental included, and a slide. */
const clearOfHead = 1.6;
/** Shorter than this, a slide on the staff is a smudge. */
const leastOnStaff = 3;

export function staffSlide(from: FingeredNote, to: FingeredNote): Shape | null {
  const [a, b] = [from.heads[0]?.head, to.heads[0]?.head];
  if (a === undefined || b === undefined) return null;
  const [x1, x2] = [a.x + a.width / 2 + clearOfHead, b.left - clearOfHead];
  if (x2 - x1 < leastOnStaff) return null;
  const tilt = (b.y - a.y) / (b.x - a.x);
  return lineShape(joinMeaning('slide', to), x1, a.y + (x1 - a.x) * tilt, x2, b.y - (b.x - x2) * tilt, pen);
}

export function staffScoop(to: FingeredNote): Shape | null {
  const head = to.heads[0]?.head;
  if (head === undefined) return null;
  const x2 = head.left - clearOfHead;
  return lineShape(joinMeaning('slide', to), x2 - 9, head.y + space, x2, head.y + 1, pen);
}

const halfLength = 10;

/** The second half of a slide, into the first note of a system; `rise` is the way in semitones. */
export function slideIn(to: DrawnStop, rise: number): Shape[] {
  const { head } = to.head;
  const x2 = to.x - to.halfWidth - clearOfStop;
  const end = head.left - clearOfHead;
  const fall = rise >= 0 ? 1 : -1;
  return [
    lineShape(joinMeaning('slide', to.note), end - halfLength, head.y + 5 * fall, end, head.y + fall, pen),
    onTab(to.note, x2 - halfLength, x2, to.y, rise),
  ];
}

/** The first half of a slide, out of the last note of a system, no further than `right`. */
export function slideOut(from: DrawnStop, rise: number, right: number): Shape[] {
  const { head } = from.head;
  const x1 = from.x + from.halfWidth + clearOfStop;
  const start = head.x + head.width / 2 + clearOfHead;
  const fall = rise >= 0 ? 1 : -1;
  return [
    lineShape(joinMeaning('slide', from.note), start, head.y - fall, Math.min(start + halfLength, right), head.y - 5 * fall, pen),
    onTab(from.note, x1, Math.min(x1 + halfLength, right), from.y, rise),
  ];
}
