// Where places of one text lie in another made from it: through edits, and through pieces copied in order.
import type { Edit, Offset } from './span.ts';

/** Moves an offset of the old text through edits; null inside replaced text. A place where a replacement begins stays; one where text is put in moves behind it. */
export function throughEdits(edits: readonly Edit[], at: Offset): Offset | null {
  let by = 0;
  for (const { span, insert } of edits) {
    if (at < span.from || (at === span.from && span.to > span.from)) break;
    if (at < span.to) return null;
    by += insert.length - (span.to - span.from);
  }
  return at + by;
}

/** A piece of a made text that was copied unchanged from its source. */
export interface CopiedPiece {
  readonly source: Offset;
  readonly made: Offset;
  readonly length: number;
}

/** Maps both ways between a source and a text made from it; places inside added or dropped text go to the nearest copied piece before. */
export interface OffsetMap {
  toSource(made: Offset): Offset;
  toMade(source: Offset): Offset;
}

/** A map from pieces sorted by both of their offsets. */
export function offsetMap(pieces: readonly CopiedPiece[]): OffsetMap {
  const move = (at: Offset, from: 'source' | 'made', to: 'source' | 'made'): Offset => {
    let low = 0;
    let high = pieces.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (pieces[middle]![from] <= at) low = middle;
      else high = middle - 1;
    }
    const piece = pieces[low];
    if (!piece) return 0;
    return piece[to] + Math.min(Math.max(at - piece[from], 0), piece.length);
  };
  return { toSource: (made) => move(made, 'made', 'source'), toMade: (source) => move(source, 'source', 'made') };
}
