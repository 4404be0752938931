// Taking marks out of symbol lines without moving the marks after them.
import type { HeaderTree, TuneTree } from '../../abc/tree/tree.ts';
import type { Edit } from '../../text/span.ts';
import { inOrder } from './edits.ts';

/** The edits in order; where they would empty a place of a symbol line, a `*` stands in for it, so that the marks after it stay under their notes. */
export function keepingPlaces(tree: TuneTree | HeaderTree, edits: readonly Edit[]): readonly Edit[] {
  const held = new Set(
    tree.lines.flatMap(({ at, line }) =>
      line.kind === 'symbols' ? line.symbols.flatMap((symbol) => emptied(at, symbol.marks, edits)) : [],
    ),
  );
  return inOrder(edits.map((edit) => (held.has(edit) ? { ...edit, insert: '*' } : edit)));
}

/** The first removal at a place of which nothing would be left; none where a mark stays. */
function emptied(at: number, marks: readonly { readonly from: number; readonly to: number }[], edits: readonly Edit[]): readonly Edit[] {
  const removals = marks.map((mark) =>
    edits.find(({ span, insert }) => insert === '' && span.from <= at + mark.from && at + mark.to <= span.to),
  );
  const [first] = removals;
  return first !== undefined && removals.every((removal) => removal !== undefined) ? [first] : [];
}
