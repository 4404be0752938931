// shift.too-far: the hand has less time for a shift than the way needs.
import type { PlanStage } from '../arrangement/types.ts';
import { pinsLetGo, slursOut } from './shared/remedies.ts';
import { type Passage, windowCheck } from './shared/windows.ts';
import { ms, slowdownSentence } from './shared/words.ts';

export const shiftTooFar = windowCheck('shift.too-far', (passage, stage) => ({
  message: `The hand needs ${ms(passage.worst.needed)} for this shift and has ${ms(passage.worst.available)}. ${slowdownSentence(passage.worst, passage.part.tempo)} ${remedy(passage, stage)}`,
  fixes: [...pinsLetGo(passage.notes), ...slursOut(passage, stage)],
}));

function remedy(passage: Passage, stage: PlanStage): string {
  if (passage.worst.also.length > 0 || slursOut(passage, stage).length > 0)
    return 'Or take the slur out: a slur holds the hand where it is.';
  if (pinsLetGo(passage.notes).length > 0) return 'Or let go of a finger or string that the text asks for.';
  return 'Or lead the shift over an open string or a rest, which give the hand time.';
}
