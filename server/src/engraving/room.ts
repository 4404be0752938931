// Keeps room for what we draw: below a staff for its tab, above it for fingers, under the library's chords and endings.
import type { LibLine, LibStaffGroup, LibTabRoom } from './library.ts';
import { stretchBrackets } from './tuplets.ts';

/** Height of a diatonic step in units of the engraving: half a staff space. */
export const stepHeight = 3.875;

/** A hook for one staff; `height` in units, 0 for a staff without tab. It runs when the line is laid out and not yet drawn. */
function roomBelow(height: number): LibTabRoom {
  const steps = height / stepHeight;
  class Room {
    init(): void {}
    render(_renderer: unknown, line: LibLine, staff: number): void {
      const group = line.staffGroup!;
      if (staff === 0) stretchBrackets(group);
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

/**
 * Keeps `heights[i]` units free right above the notes of staff i. The library lays its rows (chords, endings, parts, tempo)
 * outwards from the notes, words above the notes innermost: a staff is told that it has such words. This has to happen
 * between making the elements and laying them out, which is when the line is given its group.
 */
export function keepRoomAbove(line: LibLine, heights: readonly number[]): void {
  let group: LibStaffGroup | undefined;
  Object.defineProperty(line, 'staffGroup', {
    configurable: true,
    get: () => group,
    set: (made: LibStaffGroup) => {
      made.staffs.forEach((staff, i) => {
        staff.specialY.lyricHeightAbove += (heights[i] ?? 0) / stepHeight;
      });
      group = made;
    },
  });
}
