// slide.open-string: a slide from or to an open string: no finger is there to slide.
import { fingersLetGo, slidesOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const slideOpenString = windowCheck('slide.open-string', ({ notes }) => ({
  message:
    'A slide needs a finger on the string at both ends; an open string has none. Stop the note on a lower string, or take the slide out.',
  fixes: [...fingersLetGo(notes), ...stringsLetGo(notes), ...slidesOut(notes)],
}));
