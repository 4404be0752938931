// Growing selections: note, beam, beat, bar, line, part, tune.
import type { SelectionRange } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { placeOf, rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { scoreOf } from './stages.ts';

export function selection({ connection, guard, documents }: Desktop): void {
  connection.onSelectionRanges(({ textDocument, positions }, token) =>
    guard.answer('selection', [], token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      return positions.map((position) => {
        const { tune, offset } = placeOf(document, position);
        const spans = tune < 0 ? [] : features.selection.answer(scoreOf(document, tune), offset, defaultFeatureSettings);
        const outermost: SelectionRange = { range: { start: position, end: position } };
        return (
          spans.toReversed().reduce<SelectionRange | null>((parent, span) => nested(rangeOf(document, tune, span), parent), null) ??
          outermost
        );
      });
    }),
  );
}

const nested = (range: SelectionRange['range'], parent: SelectionRange | null): SelectionRange => (parent ? { range, parent } : { range });
