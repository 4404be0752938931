// hammer.crosses-strings: a rising slur whose second note lies on another string, or is an open one: nothing can be hammered there.
import { fingersLetGo, slursOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const hammerCrossesStrings = windowCheck('hammer.crosses-strings', (passage, stage) => ({
  message:
    'A hammer-on sounds the second note by a finger falling on the same string; here the second note is on another string or open. Stop it on the string of the first note, or take the slur out and pluck both.',
  fixes: [...fingersLetGo(passage.notes), ...stringsLetGo(passage.notes), ...slursOut(passage, stage)],
}));
