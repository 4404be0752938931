// hammer.crosses-strings: a slur whose notes lie on two strings, or that rises into an open string: nothing can be hammered or pulled there.
import type { PartNote } from '../arrangement/types.ts';
import { fingersLetGo, slursOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const hammerCrossesStrings = windowCheck('hammer.crosses-strings', (passage, stage) => ({
  message: rises(passage.notes) ? hammered : pulled,
  fixes: [...fingersLetGo(passage.notes), ...stringsLetGo(passage.notes), ...slursOut(passage, stage)],
}));

const hammered =
  'A hammer-on sounds the second note by a finger falling on the same string; here the second note is on another string or open. Stop it on the string of the first note, or take the slur out and pluck both.';
const pulled =
  'A pull-off sounds the second note on the string of the first; these notes have no string in common. Stop both on one string, or take the slur out and pluck both.';

const rises = (notes: readonly PartNote[]): boolean => notes.some((note) => note.articulation === 'hammer');
