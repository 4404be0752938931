// Outline: the tunes of a book with their parts and voices.
import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import { defaultFeatureSettings, features, type SymbolNode } from '../../features/index.ts';
import { rangeOf } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { treeOf, tunesOf } from './stages.ts';

const kinds: Readonly<Record<SymbolNode['kind'], SymbolKind>> = {
  tune: SymbolKind.Class,
  part: SymbolKind.Namespace,
  voice: SymbolKind.Interface,
};

export function symbols({ connection, guard, documents }: Desktop): void {
  connection.onDocumentSymbol(({ textDocument }, token) =>
    guard.answer('outline', [], token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      return tunesOf(document).map((tune) =>
        symbolOf(document, tune, features.symbols.answer(treeOf(document, tune), null, defaultFeatureSettings)),
      );
    }),
  );
}

function symbolOf(document: OpenDocument, tune: number, node: SymbolNode): DocumentSymbol {
  return {
    name: node.name,
    detail: node.detail,
    kind: kinds[node.kind],
    range: rangeOf(document, tune, node),
    selectionRange: rangeOf(document, tune, node.selection),
    children: node.children.map((child) => symbolOf(document, tune, child)),
  };
}
