// reach.too-wide: a double stop, a held note or a slur asks one hand to span more than it can.
import type { PlanStage } from '../arrangement/types.ts';
import { pinsLetGo, slursOut } from './shared/remedies.ts';
import { type Passage, windowCheck } from './shared/windows.ts';
import { mm } from './shared/words.ts';

export const reachTooWide = windowCheck('reach.too-wide', (passage, stage) => ({
  message: `${measure(passage)} No slower tempo helps: ${remedy(passage, stage)}.`,
  fixes: [...slursOut(passage, stage), ...pinsLetGo(passage.notes)],
}));

function measure({ worst }: Passage): string {
  if (worst.unit !== 'mm') return 'No single hand place holds these notes together.';
  return `One hand would have to span ${mm(worst.needed)} here and reaches ${mm(worst.available)}.`;
}

function remedy(passage: Passage, stage: PlanStage): string {
  if (slursOut(passage, stage).length > 0) return 'take the slur out, so that the hand may shift between the notes';
  if (passage.notes.some((note) => note.sounding.length > 1)) return 'leave a note of the double stop out, or put it on another string';
  return 'free a finger or a string, so that the hand may shift';
}
