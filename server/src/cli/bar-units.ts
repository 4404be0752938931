// A tune file cut into the pieces that git should see: a line of text each, but music bar by bar. Joined they are the file again.
import { readBook } from '../abc/index.ts';
import type { PlacedLine } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';

/** A piece of the file. `tune` is the index of its tune, -1 before the first. Music ends at its bar line; a line end belongs to the piece before it. */
export interface Unit extends Span {
  readonly text: string;
  readonly tune: number;
  readonly kind: 'line' | 'bar';
}

/** The units of a file's text, in order, without gaps. */
export function unitsOf(text: string): readonly Unit[] {
  const book = readBook(text);
  const header = cut(text, 0, book.header.lines, -1);
  return [...header, ...book.tunes.flatMap(({ at, tree }, tune) => cut(text, at, tree.lines, tune))];
}

function cut(text: string, start: number, lines: readonly PlacedLine[], tune: number): readonly Unit[] {
  return lines.flatMap(({ at, line }) => {
    const from = start + at;
    const to = from + line.text.length;
    const kind = line.kind === 'music' ? 'bar' : 'line';
    const ends = line.kind === 'music' ? line.items.filter((item) => item.kind === 'bar').map((item) => from + item.to) : [];
    return between([from, ...keepingTail(text, ends, to), to]).map(
      (span): Unit => ({ ...span, text: text.slice(span.from, span.to), tune, kind }),
    );
  });
}

/** The ends of bars inside a line; what follows the last bar line without a note (a remark, the line end) stays with that bar. */
const keepingTail = (text: string, ends: readonly number[], to: number): readonly number[] =>
  ends.filter((end) => !/^\s*(%.*)?\s*$/.test(text.slice(end, to)));

const between = (borders: readonly number[]): readonly Span[] =>
  borders.slice(1).flatMap((to, i) => (borders[i]! < to ? [{ from: borders[i]!, to }] : []));
