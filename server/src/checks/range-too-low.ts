// range.too-low: a note below the lowest open string.
import { outOfRange } from './shared/range.ts';

export const rangeTooLow = outOfRange(
  'range.too-low',
  1,
  ({ note, lowest }) =>
    `This note sounds ${note}; the lowest string goes down to ${lowest}. Play it an octave higher, or declare an instrument that reaches it (tuning=).`,
);
