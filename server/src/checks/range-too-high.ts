// range.too-high: a note above the highest stop in use.
import { outOfRange } from './shared/range.ts';

export const rangeTooHigh = outOfRange(
  'range.too-high',
  -1,
  ({ note, highest, top }) =>
    `This note sounds ${note}; the highest stop in use, ${top}, gives ${highest} on the highest string. Play it an octave lower, or raise the limit (top=).`,
);
