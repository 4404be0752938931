// slide.crosses-strings: a slide between two strings, or with two fingers.
import { fingersLetGo, slidesOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const slideCrossesStrings = windowCheck('slide.crosses-strings', ({ notes }) => ({
  message:
    'A slide stays on one string, under one finger; these notes do not. Give both the same string and finger, or take the slide out.',
  fixes: [...stringsLetGo(notes), ...fingersLetGo(notes), ...slidesOut(notes)],
}));
