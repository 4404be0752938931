// An index of the tunes of the open folders: their headers only, read when first asked for, in pieces that let others in.
import { readBook } from '../abc/index.ts';
import { headerOf, matchesSearch, type TuneHeader } from '../features/index.ts';
import { lineIndex } from '../text/line-index.ts';
import type { Documents, OpenDocument } from './documents.ts';
import type { Files } from './files.ts';
import type { Host } from './host.ts';

interface Position {
  readonly line: number;
  readonly character: number;
}

export interface IndexedTune {
  readonly uri: string;
  readonly header: TuneHeader;
  /** Where its title stands. */
  readonly start: Position;
  readonly end: Position;
}

export interface TuneIndex {
  /** Tunes that match every word; `cancelled` is asked between pieces. */
  search(text: string, cancelled: () => boolean): Promise<readonly IndexedTune[]>;
  /** A file has other content, or files have come or gone. */
  forget(uri: string, what: 'changed' | 'moved'): void;
}

interface Sources {
  readonly host: Host;
  readonly files: Files;
  readonly documents: Documents;
}

/** Files read at a time. */
const batch = 50;
/** Most tunes given for a search. */
const mostFound = 500;

export function makeTuneIndex({ host, files, documents }: Sources): TuneIndex {
  const kept = new Map<string, readonly IndexedTune[]>();
  let list: Promise<readonly string[]> | null = null;
  const turn = (): Promise<void> => new Promise((resolve) => host.soon(resolve));
  const readMissing = async (uris: readonly string[], cancelled: () => boolean): Promise<void> => {
    const missing = uris.filter((uri) => !kept.has(uri));
    for (let i = 0; i < missing.length && !cancelled(); i += batch) {
      const group = missing.slice(i, i + batch);
      const texts = await Promise.all(group.map((uri) => files.readOnce(uri)));
      for (const [j, uri] of group.entries()) {
        kept.set(uri, tunesIn(uri, texts[j] ?? ''));
        await turn();
      }
    }
  };
  return {
    async search(text, cancelled) {
      list ??= files.list();
      const open = new Map(documents.all().map((document) => [document.uri, document]));
      const closed = (await list).filter((uri) => !open.has(uri));
      await readMissing(closed, cancelled);
      const all = [...[...open.values()].map(tunesOpen), ...closed.map((uri) => kept.get(uri) ?? [])].flat();
      return all.filter(({ header }) => matchesSearch(header, text)).slice(0, mostFound);
    },
    forget(uri, what) {
      kept.delete(uri);
      if (what === 'moved') list = null;
    },
  };
}

const tunesOpen = ({ uri, book, lines }: OpenDocument): readonly IndexedTune[] =>
  book.tunes.map(({ at, tree }) => indexed(uri, headerOf(tree), at, lines));

/** From `X:` to the first `K:`, or to the blank line that ends a header without one. */
const headers = /^X:[^\r\n]*(?:(?:\r\n|\n|\r)(?!K:)[^\r\n]+)*(?:(?:\r\n|\n|\r)K:[^\r\n]*)?/gm;

function tunesIn(uri: string, text: string): readonly IndexedTune[] {
  const lines = lineIndex(text);
  return [...text.matchAll(headers)].flatMap((match) => {
    const tree = readBook(match[0]).tunes[0]?.tree;
    return tree === undefined ? [] : [indexed(uri, headerOf(tree), match.index, lines)];
  });
}

const indexed = (uri: string, header: TuneHeader, at: number, lines: OpenDocument['lines']): IndexedTune => ({
  uri,
  header,
  start: lines.positionAt(at + header.selection.from),
  end: lines.positionAt(at + header.selection.to),
});
