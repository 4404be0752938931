// One tune file for a command that writes tune text: its book, its settings, and edits of its tunes as one new text.
import type { Book } from '../abc/tree/tree.ts';
import type { FileConfig } from '../arrangement/types.ts';
import { lineIndex } from '../text/line-index.ts';
import { applyEdits, type Edit, shifted } from '../text/span.ts';
import type { Io } from './command.ts';
import { configsOf, settingsOrWord } from './config.ts';
import { bookOf, readSources, type Source } from './sources.ts';

/** Bytes that transition tables may take in one run. */
export const tableBytes = 32 * 1024 * 1024;

export interface OpenBook {
  readonly source: Source;
  readonly book: Book;
  readonly config: FileConfig;
}

/** Reads one tune file with its settings; null, with the reason on stderr, if it cannot be read or names no such player. */
export async function openBook(file: string, player: string | null, stdinName: string | null, io: Io): Promise<OpenBook | null> {
  const { sources } = await readSources([file], io, stdinName);
  const source = sources[0];
  if (source === undefined) return null;
  const config = await settingsOrWord(source, player, configsOf(io), io);
  return config === null ? null : { source, book: bookOf(source), config };
}

/** The file's text after edits of its tunes; `editsOf` gives those of one tune, relative to it. */
export function editedText({ source, book }: OpenBook, editsOf: (tune: number) => readonly Edit[]): string {
  const edits = book.tunes.flatMap((tune, i) => editsOf(i).map((edit) => ({ ...edit, span: shifted(edit.span, tune.at) })));
  return applyEdits(source.text, edits);
}

/** `file:line` of a place in a tune, as messages name it. */
export function placeName({ source, book }: OpenBook, tune: number, at: number): string {
  return `${source.name}:${lineIndex(source.text).positionAt(book.tunes[tune]!.at + at).line + 1}`;
}
