// hop.too-fast: one finger has to change strings faster than it can.
import { pinsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';
import { ms, slowdownSentence } from './shared/words.ts';

export const hopTooFast = windowCheck('hop.too-fast', ({ worst, part, notes }) => ({
  message: `One finger has to hop to another string in ${ms(worst.available)} and needs ${ms(worst.needed)}. ${slowdownSentence(worst, part.tempo)} Or finger the notes so that two fingers share them.`,
  fixes: pinsLetGo(notes),
}));
