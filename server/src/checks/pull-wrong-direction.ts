// pull.wrong-direction: a slur whose fingers go the wrong way: a pull-off uncovers a lower finger, a hammer-on sets a higher one.
import type { PartNote } from '../arrangement/types.ts';
import { fingersLetGo, slursOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const pullWrongDirection = windowCheck('pull.wrong-direction', (passage, stage) => ({
  message: `${rises(passage.notes) ? hammered : pulled} Here the fingers go the other way. Change the fingers, or take the slur out.`,
  fixes: [...fingersLetGo(passage.notes), ...stringsLetGo(passage.notes), ...slursOut(passage, stage)],
}));

const hammered = 'A hammer-on goes up to a higher finger than the one that holds the note before, on the same string.';
const pulled = 'A pull-off goes down to a lower finger that is already in place, or to the open string, on the same string.';

const rises = (notes: readonly PartNote[]): boolean => notes.some((note) => note.articulation === 'hammer');
