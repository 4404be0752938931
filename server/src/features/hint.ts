// A few words shown in the text that are not part of it.
import type { Offset } from '../text/span.ts';

export interface Hint {
  readonly at: Offset;
  readonly side: 'before' | 'after';
  readonly text: string;
}
