// What a handout is made of and what making one gives.
import type { Plan } from '../arrangement/types.ts';
import type { EngravingText } from '../engraving/types.ts';
import type { Played, Score } from '../score/types.ts';

/** One tune, read, fingered and ready to be put on paper or played. */
export interface HandoutTune {
  readonly score: Score;
  readonly played: Played;
  readonly engraving: EngravingText;
  /** Fingerings of its bass voices; empty for a melody. */
  readonly plans: readonly Plan[];
}

/** Which fingers are printed: all, those where the hand moves, or those written in the text. */
export type Density = 'all' | 'changes' | 'pins';

export interface ExportOptions {
  readonly density: Density;
  /** Whether stems, beams and rests stand under the tab, so that it can be read alone. */
  readonly rhythm: 'stems' | 'none';
  readonly paper: 'a4' | 'letter';
  /** Printed at the foot: who made the page, of which version, on which day. Empty parts are left out. */
  readonly credit: { readonly by: string; readonly version: string; readonly date: string };
}
