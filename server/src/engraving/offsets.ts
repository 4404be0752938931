// From offsets of the text handed to the library back to offsets of the tune.
import type { Offset, Span } from '../text/span.ts';
import type { EngravingText } from './types.ts';

/** The tune's offset of `at`, or -1 where the text is not the tune's. */
export function sourceOf(text: EngravingText, at: Offset): Offset {
  const pieces = text.toSource;
  let low = 0;
  let high = pieces.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (pieces[middle]!.at <= at) low = middle;
    else high = middle;
  }
  const piece = pieces[low];
  if (piece === undefined || piece.at > at || piece.source < 0) return -1;
  return piece.source + (at - piece.at);
}

/** The tune's span of a range of the library's text; null where it is not the tune's. */
export function sourceSpan(text: EngravingText, from: Offset, to: Offset): Span | null {
  const start = sourceOf(text, from);
  const last = to > from ? sourceOf(text, to - 1) : start;
  return start < 0 || last < 0 ? null : { from: start, to: to > from ? last + 1 : last };
}
