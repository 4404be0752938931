// A tune book: the text before the first tune, and each tune from its X: line on.
import type { Edit, Offset } from '../../text/span.ts';
import type { Book, HeaderTree, TuneTree } from '../tree/tree.ts';
import { sameDialect } from './dialect.ts';
import {
  beforeAnother,
  dialectAfter,
  type Reading,
  type ReadOptions,
  type ReuseCount,
  readHeader,
  readTune,
  withoutTunes,
} from './tune.ts';

/** Reads a text. Any text gives a book that prints back to it; errors are data on the lines. */
export function readBook(text: string, options: ReadOptions = {}): Book {
  const starts = tuneStarts(text, 0, text.length);
  const header = headerOf(text.slice(0, starts[0] ?? text.length), null, starts.length, options).tree;
  const dialect = dialectAfter(header);
  const tunes = starts.map((at, i) => {
    const { tree } = readTune(text.slice(at, starts[i + 1] ?? text.length), dialect, null, options);
    return { at, tree: i + 1 < starts.length ? beforeAnother(tree) : tree };
  });
  return { header, tunes };
}

function headerOf(text: string, old: HeaderTree | null, tunes: number, options: ReadOptions): Reading<HeaderTree> {
  const read = readHeader(text, old, options);
  return tunes > 0 ? read : { ...read, tree: withoutTunes(read.tree) };
}

/** The text of a book, byte for byte as it was read. */
export const printBook = (book: Book): string => headerText(book.header) + book.tunes.map(({ tree }) => tuneText(tree)).join('');

/** The text of a tune. */
export const tuneText = (tree: TuneTree): string => tree.lines.map(({ line }) => line.text).join('');

const headerText = (header: HeaderTree): string => header.lines.map(({ line }) => line.text).join('');

/** Where tunes begin between two places: at each line that begins with `X:` and is not a rest before a repeat sign. */
function tuneStarts(text: string, from: Offset, to: Offset): Offset[] {
  const starts: Offset[] = [];
  for (let at = text.indexOf('X:', from); at >= 0 && at < to; at = text.indexOf('X:', at + 1)) {
    if (beginsLine(text, at) && text[at + 2] !== '|' && text[at + 2] !== ':') starts.push(at);
  }
  return starts;
}

function beginsLine(text: string, at: Offset): boolean {
  const before = text[at - 1];
  return before === undefined || before === '\n' || before === '\r' || (at === 1 && before === '\ufeff');
}

export interface Reread {
  readonly book: Book;
  readonly reuse: ReuseCount;
}

/** Reads a text again after edits of the old one; what no edit touched is taken over. Equal to reading it from scratch. */
export function rereadBook(old: Book, edits: readonly Edit[], text: string, options: ReadOptions = {}): Reread {
  const count = { tunesRead: 0, tunesReused: 0, linesRead: 0, linesReused: 0 };
  if (edits.length === 0) return { book: old, reuse: { ...count, tunesReused: old.tunes.length } };
  const oldLength = lengthOf(old);
  const by = text.length - oldLength;
  const { first, last } = touched(old, edits[0]!.span.from, edits.at(-1)!.span.to);
  const from = first < 0 ? 0 : old.tunes[first]!.at;
  const next = old.tunes[last + 1];
  const to = next ? next.at + by : text.length;
  const starts = tuneStarts(text, from, to);
  const headerEnd = first < 0 ? (starts[0] ?? to) : (old.tunes[0]?.at ?? oldLength);
  const header =
    first < 0
      ? headerOf(text.slice(0, headerEnd), old.header, starts.length + old.tunes.length - last - 1, options)
      : { tree: old.header, linesRead: 0 };
  const dialect = dialectAfter(header.tree);
  count.linesRead += header.linesRead;
  if (first < 0 && !sameDialect(dialect, dialectAfter(old.header))) {
    return { book: readBook(text, options), reuse: { ...count, tunesRead: tuneStarts(text, 0, text.length).length } };
  }
  const fresh = starts.map((at, i) => {
    const candidate = old.tunes[Math.max(first, 0) + i];
    const read = readTune(text.slice(at, starts[i + 1] ?? to), dialect, candidate?.tree ?? null, options);
    count.tunesRead++;
    count.linesRead += read.linesRead;
    count.linesReused += read.tree.lines.length - read.linesRead;
    return { at, tree: i + 1 < starts.length || next ? beforeAnother(read.tree) : read.tree };
  });
  const before = old.tunes.slice(0, Math.max(first, 0));
  const after = old.tunes.slice(last + 1).map(({ at, tree }) => ({ at: at + by, tree }));
  count.tunesReused = before.length + after.length;
  return { book: { header: header.tree, tunes: [...before, ...fresh, ...after] }, reuse: count };
}

const lengthOf = (book: Book): number => {
  const last = book.tunes.at(-1);
  return last ? last.at + last.tree.length : book.header.length;
};

/** The tunes that a change of from..to can alter, -1 for the text before the first. A change at a tune's start also alters what stands before. */
function touched(book: Book, from: Offset, to: Offset): { first: number; last: number } {
  const tunes = book.tunes;
  let first = tunes.length - 1;
  while (first >= 0 && tunes[first]!.at + 3 > from) first--;
  let last = first;
  while (last + 1 < tunes.length && tunes[last + 1]!.at <= to + 1) last++;
  return { first, last };
}
