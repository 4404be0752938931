// How far a system reaches up and down with all that may be drawn on it, known before the plan is: a late plan moves nothing.
import type { EngravedStaff, EngravedSystem } from '../engraving/types.ts';
import { headroom } from './headroom.ts';
import { underTab } from './measures.ts';
import { highestInk, lowestInk } from './skyline.ts';
import type { PlacedTab } from './system.ts';

export interface Extent {
  readonly top: number;
  readonly bottom: number;
}

/** Highest ink; over a staff with tabs at least the room kept for fingers. */
function topOf(staff: EngravedStaff, room: number): number {
  const ink = Math.min(staff.top, staff.ink.peak ?? staff.top);
  return Math.min(ink, highestInk(staff.ink, staff.top) - room);
}

/** Room over a staff for the rows of each voice that has a tab. */
function roomOver({ notes }: EngravedSystem, staff: number, tabs: number): number {
  const rooms = notes.flatMap((note) => (note.staff === staff && note.match !== null ? [headroom.over(note.match.note)] : []));
  return tabs * Math.max(headroom.usual, ...rooms);
}

/** Upper and lower edge of a system; `air` is left on both sides. */
export function extentOf(system: EngravedSystem, tabs: readonly PlacedTab[], air: number): Extent {
  const tops = system.staffs.map((staff, s) => topOf(staff, roomOver(system, s, tabs.filter((tab) => tab.staff === s).length)));
  const bottoms = system.staffs.map((staff) => lowestInk(staff.ink, staff.bottom));
  return {
    top: Math.min(...tops) - air,
    bottom: Math.max(...bottoms, ...tabs.map((tab) => tab.bottom + underTab)) + air,
  };
}
