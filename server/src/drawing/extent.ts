// How far a system reaches up and down with all that is drawn on it.
import type { EngravedSystem } from '../engraving/types.ts';
import { underTab } from './measures.ts';
import type { Shape } from './shapes.ts';
import { lowestInk } from './skyline.ts';
import type { PlacedTab } from './system.ts';

export interface Extent {
  readonly top: number;
  readonly bottom: number;
}

function topOf(shape: Shape): number {
  switch (shape.kind) {
    case 'text':
      return shape.y - shape.size * 0.8;
    case 'line':
      return Math.min(shape.y1, shape.y2);
    case 'rect':
      return shape.y;
    case 'circle':
      return shape.y - shape.r;
    case 'path':
      return Number.POSITIVE_INFINITY;
  }
}

/** Upper and lower edge of a system; `air` is left on both sides. */
export function extentOf(system: EngravedSystem, tabs: readonly PlacedTab[], shapes: readonly Shape[], air: number): Extent {
  const tops = system.staffs.map((staff) => Math.min(staff.top, staff.ink.peak ?? staff.top));
  const bottoms = system.staffs.map((staff) => lowestInk(staff.ink, staff.bottom));
  return {
    top: Math.min(...tops, ...shapes.map(topOf)) - air,
    bottom: Math.max(...bottoms, ...tabs.map((tab) => tab.bottom + underTab)) + air,
  };
}
