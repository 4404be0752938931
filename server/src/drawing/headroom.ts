// Room over the notes for what stands above them, known before the plan is: by the heads and marks of a note alone.
import type { Headroom, SceneNote } from '../engraving/types.ts';

/** For a finger, a string, the place of the hand. */
const usual = 34;
/** What a note's rows take beyond those of a plain one: an accent, the circle of a harmonic, a finger for each further head. Heights and gaps are those of the rows. */
const accentRow = 10;
const circleRow = 9.1;
const fingerRow = 11.8;

function roomOver({ marks, heads }: SceneNote): number {
  const accent = marks.includes('accent') ? accentRow : 0;
  const circle = marks.includes('open') ? circleRow : 0;
  return usual + accent + circle + Math.max(0, heads.length - 1) * fingerRow;
}

export const headroom: Headroom = { usual, over: roomOver };
