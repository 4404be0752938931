// What joins the notes of a voice: arcs and slides between neighbours, and their halves where the neighbour stands on another system.
import type { PlanNote } from '../arrangement/types.ts';
import { arcBetween, halfArc } from './arcs.ts';
import type { FingeredNote } from './notes.ts';
import type { Shape } from './shapes.ts';
import { slideIn, slideOut, staffScoop, staffSlide, tabScoop, tabSlide } from './slides.ts';
import type { DrawnStop } from './tab.ts';

/** Stops of one string, from one note to the next. */
type Pair = readonly [from: DrawnStop, to: DrawnStop];

const pairsOf = (before: readonly DrawnStop[], stops: readonly DrawnStop[]): Pair[] =>
  stops.flatMap((to): Pair[] => {
    const from = before.find((stop) => stop.string === to.string);
    return from === undefined || from.place.stop === to.place.stop ? [] : [[from, to]];
  });

/** A note of the system with its stops; one that only sounds on keeps those of its attack. */
interface Held {
  readonly note: FingeredNote;
  readonly stops: readonly DrawnStop[];
}

/** What joins a note to the one before it on the system. */
function joinsBetween(before: Held | null, { note, stops }: Held, all: readonly DrawnStop[]): (Shape | null)[] {
  const attack = note.plan?.attack ?? (note.scene.marks.includes('slide') ? 'scoop' : 'pluck');
  if (attack === 'scoop') return [staffScoop(note), ...stops.map((to) => tabScoop(before?.stops[0], to))];
  if (before === null) return [];
  const pairs = pairsOf(before.stops, stops);
  if (attack === 'hammer' || attack === 'pull') return pairs.map(([from, to]) => arcBetween(from, to, all));
  return attack === 'glide' ? [staffSlide(before.note, note), ...pairs.map(([from, to]) => tabSlide(from, to))] : [];
}

/** Semitones from a stop to that of another note on its string; 0 if it has none there. */
const wayTo = ({ place }: DrawnStop, other: PlanNote): number =>
  (other.places.find(({ string }) => string === place.string)?.stop ?? place.stop) - place.stop;

/** An arc reaches so far out of a note to the system before. */
const halfArcLength = 20;

/** The second half of a join whose first note stands on the system before. */
function joinsIn({ note, stops }: Held, all: readonly DrawnStop[]): Shape[] {
  const { plan, before } = note;
  if (plan === null || before === null) return [];
  const moved = stops.filter((stop) => wayTo(stop, before) !== 0);
  if (plan.attack === 'glide') return moved.flatMap((stop) => slideIn(stop, -wayTo(stop, before)));
  if (plan.attack !== 'hammer' && plan.attack !== 'pull') return [];
  return moved.map((stop) => halfArc(stop, stop.x - halfArcLength, all));
}

/** The first half of a join whose second note stands on the next system. */
function joinsOut({ note, stops }: Held, all: readonly DrawnStop[], right: number): Shape[] {
  const { after } = note;
  if (after === null) return [];
  const moved = stops.filter((stop) => wayTo(stop, after) !== 0);
  if (after.attack === 'glide') return moved.flatMap((stop) => slideOut(stop, wayTo(stop, after), right));
  if (after.attack !== 'hammer' && after.attack !== 'pull') return [];
  return moved.map((stop) => halfArc(stop, right, all));
}

/** Joins of neighbouring notes of the voice: on the tab where both have stops, on the staff for slides. `right` is where the system ends. */
export function drawJoins(notes: readonly FingeredNote[], stops: readonly DrawnStop[], right: number): Shape[] {
  const shapes: (Shape | null)[] = [];
  let before: Held | null = null;
  for (const note of notes) {
    if (note.scene.tied) {
      // Tied from the system before, it has no stop to start from.
      before = before === null ? null : { note, stops: before.stops };
      continue;
    }
    const own: Held = { note, stops: stops.filter((stop) => stop.note === note) };
    shapes.push(...joinsBetween(before, own, stops), ...(before === null ? joinsIn(own, stops) : []));
    before = own;
  }
  if (before !== null) shapes.push(...joinsOut(before, stops, right));
  return shapes.filter((shape) => shape !== null);
}
