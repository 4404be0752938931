// Which tune each panel looks at.
import { tuneAt } from './convert.ts';
import type { OpenDocument } from './documents.ts';
import type { View } from './protocol.ts';

export interface Views {
  /** Whether the panel now looks at another tune than before; caret moves inside a tune turn nothing. */
  show(view: View, document: OpenDocument | null): 'turned' | 'same';
  hide(name: string): void;
  /** Names of the panels that look at this tune. */
  of(document: OpenDocument, tune: number): readonly string[];
  /** Tunes of this document that some panel looks at; -1 where it has none. */
  tunesOf(document: OpenDocument): readonly number[];
  /** Names of all panels on a document. */
  on(uri: string): readonly string[];
}

export function makeViews(): Views {
  const views = new Map<string, View>();
  const on = (uri: string): View[] => [...views.values()].filter((view) => view.uri === uri);
  // In front of the first tune, the first is shown: a header alone is no picture.
  const tuneOf = (document: OpenDocument, view: View): number =>
    document.book.tunes.length === 0 ? -1 : Math.max(0, tuneAt(document, view.offset).tune);
  return {
    show(view, document) {
      const old = views.get(view.view);
      views.set(view.view, view);
      const same = old?.uri === view.uri && document !== null && tuneOf(document, old) === tuneOf(document, view);
      return same ? 'same' : 'turned';
    },
    hide: (name) => void views.delete(name),
    of: (document, tune) =>
      on(document.uri)
        .filter((view) => tuneOf(document, view) === tune)
        .map((view) => view.view),
    tunesOf: (document) => [...new Set(on(document.uri).map((view) => tuneOf(document, view)))],
    on: (uri) => on(uri).map((view) => view.view),
  };
}
