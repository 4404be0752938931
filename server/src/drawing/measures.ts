// Measures of what we draw, in units of the engraving (a staff space is 7.75). Sizes of text are heights of its em.

export const space = 7.75;

/** Tab lines this far apart keep digits of 9 pt on paper clear of each other. */
export const tabGap = 12;
export const stopSize = 14;
/** Stops of two figures are a little smaller, on paper still over 9 pt; where they crowd they are set narrower. */
export const wideStopSize = 13.2;
export const graceShare = 0.65;
/** Half the height of a digit of `stopSize`. */
export const halfStop = 5;

export const fingerSize = 12;
export const stringSize = 11;
export const handSize = 11.5;

/** From the lowest ink of the staff to the top tab line, and at least from the bottom staff line. */
export const overTab = 1.15 * space + halfStop;
export const leastOverTab = 2 * space;
/** Between two tabs of one staff. */
export const betweenTabs = 2.2 * space;
/** Under the lowest tab line: half a digit, an accent, a little air. */
export const underTab = halfStop + 10;

export const tabHeight = (strings: number): number => (strings - 1) * tabGap;

/** Room to keep between a staff with tab and the next staff, for up to six strings' usual four. */
export const tabRoom = overTab + tabHeight(4) + underTab + 8;

/** Width of a figure as a share of its size, in the face of stops that the player decided and of those that the engine did. */
export interface FigureWidths {
  readonly pinned: number;
  readonly computed: number;
}

/** In a usual sans, where the face is not known. */
export const usualFigures: FigureWidths = { pinned: 0.56, computed: 0.56 };
