// How far a system reaches up and down with all that may be drawn on it, known before the plan is: a late plan moves nothing.
import type { EngravedStaff, EngravedSystem } from '../engraving/types.ts';
import { headroom, underTab } from './measures.ts';
import { highestInk, lowestInk } from './skyline.ts';
import type { PlacedTab } from './system.ts';

export interface Extent {
  readonly top: number;
  readonly bottom: number;
}

/** Highest ink; over a staff with tab at least the room kept for fingers. */
function topOf(staff: EngravedStaff, room: 'fingers' | 'none'): number {
  const ink = Math.min(staff.top, staff.ink.peak ?? staff.top);
  return room === 'none' ? ink : Math.min(ink, highestInk(staff.ink, staff.top) - headroom);
}

/** Upper and lower edge of a system; `air` is left on both sides. */
export function extentOf(system: EngravedSystem, tabs: readonly PlacedTab[], air: number): Extent {
  const tops = system.staffs.map((staff, s) => topOf(staff, tabs.some((tab) => tab.staff === s) ? 'fingers' : 'none'));
  const bottoms = system.staffs.map((staff) => lowestInk(staff.ink, staff.bottom));
  return {
    top: Math.min(...tops) - air,
    bottom: Math.max(...bottoms, ...tabs.map((tab) => tab.bottom + underTab)) + air,
  };
}
