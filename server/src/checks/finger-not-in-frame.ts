// finger.not-in-frame: a pinned finger that no place of the hand puts on this note.
import { pinsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const fingerNotInFrame = windowCheck('finger.not-in-frame', ({ notes }) => ({
  message:
    'No place of the hand puts the fingers asked for on these notes. Let go of a finger or a string, or of the place of the hand (hand-stop=).',
  fixes: pinsLetGo(notes),
}));
