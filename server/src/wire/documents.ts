// Open documents: their text, version and book, read again incrementally at every change.
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { type Include, readBook, rereadBook } from '../abc/index.ts';
import type { Book } from '../abc/tree/tree.ts';
import { lineIndex } from '../text/line-index.ts';
import type { Edit, Offset } from '../text/span.ts';

/** A document at one version. Frozen: a change makes a new one. */
export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  readonly book: Book;
  readonly lines: ReturnType<typeof lineIndex>;
  /** Where the last change ended; the tune there is worked on first. */
  readonly touched: Offset;
}

export interface Documents {
  open(uri: string, version: number, text: string): OpenDocument;
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): OpenDocument | null;
  /** Reads a document anew whose included files have changed; null if it is not open. */
  again(uri: string): OpenDocument | null;
  close(uri: string): void;
  get(uri: string): OpenDocument | null;
  all(): readonly OpenDocument[];
}

export type IncludesOf = (uri: string) => Include;

export function makeDocuments(includesOf: IncludesOf): Documents {
  const documents = new Map<string, OpenDocument>();
  const keep = (document: OpenDocument): OpenDocument => {
    documents.set(document.uri, document);
    return document;
  };
  return {
    open: (uri, version, text) => keep(fresh(uri, version, text, includesOf)),
    change: (uri, version, changes) => {
      const old = documents.get(uri);
      if (old === undefined) return null;
      const after = changes.reduce<OpenDocument>((document, change) => changed(document, change, includesOf), old);
      return keep({ ...after, version });
    },
    again: (uri) => {
      const old = documents.get(uri);
      return old ? keep({ ...old, book: readBook(old.text, { include: includesOf(uri) }) }) : null;
    },
    close: (uri) => void documents.delete(uri),
    get: (uri) => documents.get(uri) ?? null,
    all: () => [...documents.values()],
  };
}

const fresh = (uri: string, version: number, text: string, includesOf: IncludesOf): OpenDocument => ({
  uri,
  version,
  text,
  book: readBook(text, { include: includesOf(uri) }),
  lines: lineIndex(text),
  touched: 0,
});

/** The document after one change; the protocol states each change in terms of the text after the one before. */
function changed(old: OpenDocument, change: TextDocumentContentChangeEvent, includesOf: IncludesOf): OpenDocument {
  if (!('range' in change)) return fresh(old.uri, old.version, change.text, includesOf);
  const span = { from: old.lines.offsetAt(change.range.start), to: old.lines.offsetAt(change.range.end) };
  const edit: Edit = { span, insert: change.text };
  const text = old.text.slice(0, span.from) + change.text + old.text.slice(span.to);
  const { book } = rereadBook(old.book, [edit], text, { include: includesOf(old.uri) });
  return { ...old, text, book, lines: lineIndex(text), touched: span.from + change.text.length };
}
