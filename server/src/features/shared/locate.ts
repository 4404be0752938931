// Finding lines and items by offset.
import type { MusicItem } from '../../abc/tree/items.ts';
import type { Line, PlacedLine } from '../../abc/tree/tree.ts';
import type { Offset, Span } from '../../text/span.ts';

/** A music item with its place in the tune instead of in its line. */
export interface PlacedItem extends Span {
  readonly item: MusicItem;
}

/** The index of the line that holds an offset: the last that begins at or before it; -1 if there is none. */
export function lineIndexAt(lines: readonly PlacedLine[], at: Offset): number {
  let low = 0;
  let high = lines.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lines[middle]!.at <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

export const lineAt = (lines: readonly PlacedLine[], at: Offset): PlacedLine | null => lines[lineIndexAt(lines, at)] ?? null;

/** A line's text without its line end. */
export const bareText = (line: Line): string => line.text.replace(/[\r\n]+$/, '');

/** The span of a line without its line end. */
export const bareSpan = (placed: PlacedLine): Span => ({ from: placed.at, to: placed.at + bareText(placed.line).length });

/** The items of a music line, placed in the tune; none for other lines. */
export const itemsOf = ({ at, line }: PlacedLine): readonly PlacedItem[] => (line.kind === 'music' ? placed(line.items, at) : []);

const placed = (items: readonly MusicItem[], at: Offset): readonly PlacedItem[] =>
  items.map((item) => ({ item, from: at + item.from, to: at + item.to }));

/** Items with those inside chords and graces after the item that holds them. */
export function deepItemsOf(line: PlacedLine): readonly PlacedItem[] {
  const deep = (items: readonly MusicItem[]): readonly PlacedItem[] =>
    placed(items, line.at).flatMap((one) =>
      one.item.kind === 'chord' || one.item.kind === 'grace' ? [one, ...deep(one.item.inner)] : [one],
    );
  return line.line.kind === 'music' ? deep(line.line.items) : [];
}

/** The innermost item that touches an offset, the one beginning there before the one ending there. */
export function itemAt(line: PlacedLine, at: Offset): PlacedItem | null {
  const touching = deepItemsOf(line).filter((one) => one.from <= at && at <= one.to && one.item.kind !== 'line-end');
  return touching.findLast((one) => at < one.to) ?? touching.at(-1) ?? null;
}
