// Folding of tunes, headers, sections, lyrics and comments.
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import { defaultFeatureSettings, type Fold, features } from '../../features/index.ts';
import { rangeOf } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { tunesOf, viewOf } from './stages.ts';

export function folding({ connection, guard, documents }: Desktop): void {
  connection.onFoldingRanges(({ textDocument }, token) =>
    guard.answer('folding', [], token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      return [-1, ...tunesOf(document)].flatMap((tune) =>
        features.folding.answer(viewOf(document, tune), null, defaultFeatureSettings).map((fold) => foldOf(document, tune, fold)),
      );
    }),
  );
}

function foldOf(document: OpenDocument, tune: number, fold: Fold): FoldingRange {
  const { start, end } = rangeOf(document, tune, fold);
  return { startLine: start.line, endLine: end.line, kind: fold.kind === 'comment' ? FoldingRangeKind.Comment : FoldingRangeKind.Region };
}
