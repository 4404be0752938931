// What a step between two notes is judged and priced by.
import type { Player } from '../bass/types.ts';
import type { Weights } from './cost/weights.ts';
import type { Lifted } from './limits/lifted.ts';
import type { Articulation, Task } from './types.ts';

/** More than any sum of costs: no way. */
export const never = 1 << 30;

/** How the step is bound: all that is plucked is bound alike. */
export type Way = 'free' | 'hammer' | 'pull' | 'glide';

/** The bond of a note's articulation to the note before. */
export function wayOf(articulation: Articulation): Way {
  return articulation === 'hammer' || articulation === 'pull' || articulation === 'glide' ? articulation : 'free';
}

/** What a step is judged and priced by. */
export interface StepRules {
  readonly player: Player;
  readonly weights: Weights;
  readonly lifted: Lifted;
  readonly timed: Task['timed'];
}
