// thumb.too-low: the thumb is asked for below the lowest stop at which it can play.
import { thumbFloor } from '../arrangement/index.ts';
import { fingersLetGo, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const thumbTooLow = windowCheck('thumb.too-low', ({ notes, part }) => ({
  message: `The thumb plays from stop ${Math.min(thumbFloor, part.setup.thumb)} up; lower down it is behind the neck. Take another finger, or a lower string where the note lies higher. Thumb position is learnt slowly: stop on pain or numbness, and ask a teacher.`,
  fixes: [...fingersLetGo(notes), ...stringsLetGo(notes)],
}));
