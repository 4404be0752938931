// What must hold of any tree, and short ways to read a text in tests.

import type { Book, Line, MusicItem } from '../../server/src/abc/index.ts';
import { readBook } from '../../server/src/abc/index.ts';
import { playOut, readScore } from '../../server/src/score/index.ts';
import type { Score } from '../../server/src/score/types.ts';

/** The score of the first tune of a text. */
export function scoreOf(text: string): Score {
  const book = readBook(text);
  return readScore(book.header, book.tunes[0]!.tree);
}

/** The score of music in 4/4, unit 1/8, C major. */
export const scoreOfMusic = (music: string): Score => scoreOf(`X:1\nT:t\nM:4/4\nL:1/8\nK:C\n${music}\n`);

/** Reads and plays every tune; gives the number of notes, so that nothing is optimised away. */
export function readAll(book: Book): number {
  let count = 0;
  for (const { tree } of book.tunes) {
    const score = readScore(book.header, tree);
    for (const voice of score.voices) count += voice.notes.length;
    for (const voice of playOut(score).voices) count += voice.events.length;
  }
  return count;
}

/** What is wrong with how a book lies on its text, in words; null if nothing is. */
export function faultOf(book: Book, text: string): string | null {
  let at = book.header.length;
  for (const { at: start, tree } of [{ at: 0, tree: book.header }, ...book.tunes]) {
    if (tree.kind === 'tune' && start !== at) return `a tune stands at ${start}, not ${at}`;
    let inside = 0;
    for (const placed of tree.lines) {
      if (placed.at !== inside) return `a line stands at ${placed.at}, not ${inside}`;
      const fault = faultOfLine(placed.line);
      if (fault) return fault;
      inside += placed.line.text.length;
    }
    if (inside !== tree.length) return `lines fill ${inside} of ${tree.length}`;
    const printed = tree.lines.map(({ line }) => line.text).join('');
    if (printed !== text.slice(start, start + tree.length)) return 'a tree does not print back';
    at = start + tree.length;
  }
  return at === text.length ? null : `the book ends at ${at} of ${text.length}`;
}

function faultOfLine(line: Line): string | null {
  for (const { span } of line.errors) {
    if (!(span.from >= 0 && span.from <= span.to && span.to <= line.text.length))
      return `an error at ${span.from}..${span.to} of ${JSON.stringify(line.text)}`;
  }
  return line.kind === 'music' ? faultOfItems(line.items, 0, line.text.length, line.text) : null;
}

function faultOfItems(items: readonly MusicItem[], from: number, to: number, text: string): string | null {
  let at = from;
  for (const item of items) {
    if (item.from !== at || item.to <= item.from)
      return `${item.kind} ${item.from}..${item.to} where ${at} is due in ${JSON.stringify(text)}`;
    at = item.to;
    if (item.kind === 'chord' || item.kind === 'grace') {
      const inner = faultOfItems(item.inner, item.inner[0]?.from ?? item.to, item.inner.at(-1)?.to ?? item.to, text);
      if (inner) return inner;
    }
  }
  return at === to ? null : `items end at ${at} of ${to} in ${JSON.stringify(text)}`;
}

/** Trees and scores as plain data, to be compared. */
export const plain = (book: Book): string => JSON.stringify(book);
