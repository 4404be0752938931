// Places in a text and changes to it.

/** A place in a text, counted in UTF-16 code units. */
export type Offset = number;

/** A stretch of text, half-open: `from` is the first unit inside, `to` the first unit after. */
export interface Span {
  readonly from: Offset;
  readonly to: Offset;
}

/** A replacement of `span` by `insert`; spans of one change never overlap and are sorted. */
export interface Edit {
  readonly span: Span;
  readonly insert: string;
}

/** The span moved by `by` units. */
export const shifted = (span: Span, by: Offset): Span => ({ from: span.from + by, to: span.to + by });

/** Whether `at` lies in the span or on one of its borders. */
export const touches = (span: Span, at: Offset): boolean => span.from <= at && at <= span.to;

/** The text after all edits. Edits refer to the text before; they must be sorted and must not overlap. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  let out = '';
  let done = 0;
  for (const edit of edits) {
    out += text.slice(done, edit.span.from) + edit.insert;
    done = edit.span.to;
  }
  return out + text.slice(done);
}
