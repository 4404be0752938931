// Highlights: the other end of a slur, tie or repeat, notes of the same pitch, notes of the same place of the hand.
import { DocumentHighlightKind } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { placeOf, rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { planOf, scoreOf } from './stages.ts';

export function highlights(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onDocumentHighlight(({ textDocument, position }, token) =>
    guard.answer('highlights', [], token, async () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      const { tune, offset } = placeOf(document, position);
      if (tune < 0) return [];
      const ends = features.highlights.answer(scoreOf(document, tune), offset, defaultFeatureSettings);
      const plan = await planOf(desktop, document, tune);
      const hand = plan ? features.handHighlights.answer(plan, offset, defaultFeatureSettings) : [];
      const write = ends.map((one) => ({ range: rangeOf(document, tune, one), kind: DocumentHighlightKind.Write }));
      const read = hand
        .filter((one) => !ends.some((end) => end.from === one.from))
        .map((one) => ({ range: rangeOf(document, tune, one), kind: DocumentHighlightKind.Read }));
      return [...write, ...read];
    }),
  );
}
