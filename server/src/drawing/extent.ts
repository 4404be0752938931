// How far a system reaches up and down with all that may be drawn on it, known before the plan is: a late plan moves nothing.
import type { EngravedStaff, EngravedSystem } from '../engraving/types.ts';
import { underTab } from './measures.ts';
import { highestInk, lowestInk } from './skyline.ts';
import type { PlacedTab } from './system.ts';

export interface Extent {
  readonly top: number;
  readonly bottom: number;
}

/** Highest ink; over a staff with tabs at least the room kept for fingers. */
const topOf = ({ top, ink, headroom }: EngravedStaff): number => Math.min(top, ink.peak ?? top, highestInk(ink, top) - headroom);

/** Upper and lower edge of a system; `air` is left on both sides. */
export function extentOf(system: EngravedSystem, tabs: readonly PlacedTab[], air: number): Extent {
  const tops = system.staffs.map(topOf);
  const bottoms = system.staffs.map((staff) => lowestInk(staff.ink, staff.bottom));
  return {
    top: Math.min(...tops) - air,
    bottom: Math.max(...bottoms, ...tabs.map((tab) => tab.bottom + underTab)) + air,
  };
}
