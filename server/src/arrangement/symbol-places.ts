// Taking pins out of symbol lines without moving the pins after them.
import type { HeaderTree, TuneTree } from '../abc/tree/tree.ts';
import type { Edit } from '../text/span.ts';

/** The edits with a `*` in place of a removal that would leave nothing at a place of a symbol line: places there are counted. */
export function keepingSymbolPlaces(tree: TuneTree | HeaderTree, edits: readonly Edit[]): readonly Edit[] {
  const removals = new Map(edits.filter((edit) => edit.insert === '').map((edit) => [edit.span.from, edit]));
  const starred = new Set<Edit>();
  for (const { at, line } of tree.lines) {
    if (line.kind !== 'symbols') continue;
    for (const { marks } of line.symbols) {
      const gone = marks.map((mark) => removals.get(at + mark.from));
      if (gone[0] !== undefined && gone.every((edit) => edit !== undefined)) starred.add(gone[0]);
    }
  }
  return edits.map((edit) => (starred.has(edit) ? { ...edit, insert: '*' } : edit));
}
