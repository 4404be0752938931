// hop.too-fast: one finger has to change strings faster than it can.
import type { PartNote } from '../arrangement/types.ts';
import { spelled } from './shared/pitch.ts';
import { pinsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';
import { ms, slowdownSentence } from './shared/words.ts';

export const hopTooFast = windowCheck('hop.too-fast', ({ worst, part, notes }) => ({
  message: `From ${nameOf(notes[0])} to ${nameOf(notes.at(-1))} the same finger has to leave one string for another: it has ${ms(worst.available)} and needs ${ms(worst.needed)}. ${slowdownSentence(worst, part.tempo)} ${remedy(notes)}`,
  fixes: pinsLetGo(notes),
}));

const nameOf = (note: PartNote | undefined): string => note?.note.heads.map(spelled).join('+') ?? '';

const remedy = (notes: readonly PartNote[]): string =>
  pinsLetGo(notes).length > 0
    ? 'Or let go of a finger or string that the text asks for, so that two fingers share the notes.'
    : 'Or leave a note out: no two fingers can share these.';
