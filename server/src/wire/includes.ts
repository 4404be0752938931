// Files that open documents include: asked for when first named, given once they have come, and again when they change.
import type { Include } from '../abc/index.ts';
import type { Files } from './files.ts';

export interface Includes {
  /** What a document may include: files of its folder or below. Null for one that is not here yet; it is told of when it comes. */
  of(document: string): Include;
  /** A file has changed on disk. */
  changed(uri: string): void;
}

/** `arrived` is told each document that named a file whose text is new. */
export function makeIncludes(files: Pick<Files, 'readOnce'>, arrived: (document: string) => void): Includes {
  const texts = new Map<string, string | null>();
  const namedBy = new Map<string, Set<string>>();
  const fetch = async (uri: string): Promise<void> => {
    const before = texts.get(uri) ?? null;
    texts.set(uri, before);
    const text = await files.readOnce(uri);
    texts.set(uri, text);
    if (text !== before) for (const document of namedBy.get(uri) ?? []) arrived(document);
  };
  return {
    of: (document) => (name) => {
      const uri = addressInside(document, name);
      if (uri === null) return null;
      namedBy.set(uri, (namedBy.get(uri) ?? new Set()).add(document));
      if (!texts.has(uri)) void fetch(uri);
      return texts.get(uri) ?? null;
    },
    changed: (uri) => {
      if (texts.has(uri)) void fetch(uri);
    },
  };
}

/** The address of a file named in a document; null where the name leads out of its folder, or the document has none. */
function addressInside(document: string, name: string): string | null {
  const folder = document.slice(0, document.lastIndexOf('/') + 1);
  const steps = name.split('/').filter((step) => step !== '.');
  if (folder === '' || name.includes('\\') || steps.some((step) => step === '' || step === '..')) return null;
  return folder + steps.map(encodeURIComponent).join('/');
}
