// Keeps room for tab between the staves of a system: lowers a staff's ground after layout, before drawing.
import type { LibLine, LibTabRoom } from './library.ts';

/** Height of a diatonic step in units of the engraving: half a staff space. */
export const stepHeight = 3.875;

/** A hook for one staff; `height` in units, 0 for a staff without tab. */
function roomBelow(height: number): LibTabRoom {
  const steps = height / stepHeight;
  class Room {
    init(): void {}
    render(_renderer: unknown, line: LibLine, staff: number): void {
      const group = line.staffGroup!;
      group.staffs[staff]!.bottom -= steps;
      group.height += steps;
    }
  }
  return { classz: Room, params: {}, instance: null, tabType: {} };
}

/** One hook a staff: the library throws on a missing one. The last staff needs none, its tab stands below all ink. */
export function roomsFor(heights: readonly number[]): readonly LibTabRoom[] {
  return heights.map((height, i) => roomBelow(i === heights.length - 1 ? 0 : height));
}
