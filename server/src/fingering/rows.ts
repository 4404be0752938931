// Rows of figures, one a state of a note. Equal rows are one object and remember what follows from them, so after an edit only rows that differ are worked out.
import { never } from './rules.ts';

/** Figures of all states of a note. */
export interface Row {
  readonly cells: Int32Array;
  /** What steps made of it; there are few, most often one. */
  readonly next: { readonly by: object; readonly reached: Reached }[];
}

/** A row, and the least of its figures: already taken off where rows that differ by a constant go on alike. */
export interface Reached {
  readonly row: Row;
  readonly least: number;
}

/** The rows of one owner. */
export interface Rows {
  /** The one row of these cells, as they are. */
  asIs(cells: Int32Array): Reached;
  /** The row of these cells less their least, which is taken off them; `never` stays. */
  lowered(cells: Int32Array): Reached;
  /** What `by` makes of a row, from `make` if it is not known. */
  after(before: Row, by: object, make: (before: Int32Array) => Reached): Reached;
}

/** Of V8's objects, beside the figures. */
const bytesPerRow = 350;
const bytesPerStep = 100;

/** An empty store; `grew` hears of the bytes each row takes, and what is remembered with it. */
export function makeRows(grew: (bytes: number) => void): Rows {
  const known = new Map<number, Row[]>();
  const row = (cells: Int32Array): Row => {
    const hash = hashOf(cells);
    const alike = known.get(hash);
    const found = alike?.find((one) => isEqual(one.cells, cells));
    if (found) return found;
    const made: Row = { cells, next: [] };
    if (alike) alike.push(made);
    else known.set(hash, [made]);
    grew(cells.byteLength + bytesPerRow);
    return made;
  };
  return {
    asIs: (cells) => ({ row: row(cells), least: leastIn(cells) }),
    lowered: (cells) => {
      const least = leastIn(cells);
      if (least > 0 && least < never) for (let i = 0; i < cells.length; i++) if (cells[i]! < never) cells[i]! -= least;
      return { row: row(cells), least };
    },
    after: (before, by, make) => {
      for (const known of before.next) if (known.by === by) return known.reached;
      const reached = make(before.cells);
      before.next.push({ by, reached });
      grew(bytesPerStep);
      return reached;
    },
  };
}

function leastIn(cells: Int32Array): number {
  let least = never;
  for (let i = 0; i < cells.length; i++) if (cells[i]! < least) least = cells[i]!;
  return least;
}

function hashOf(cells: Int32Array): number {
  let hash = cells.length;
  for (let i = 0; i < cells.length; i++) hash = Math.imul(hash ^ cells[i]!, 0x01000193) ^ (hash >>> 15);
  return hash;
}

function isEqual(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
