// Completion: words of the standard and of our declarations, and at a note its places, easiest first.
import { type CompletionItem, CompletionItemKind, MarkupKind } from 'vscode-languageserver';
import { defaultFeatureSettings, features, type CompletionItem as Offer } from '../../features/index.ts';
import { placeOf, rangeOf, textEdit } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { planOf, viewOf } from './stages.ts';

const kinds: Readonly<Record<Offer['kind'], CompletionItemKind>> = {
  field: CompletionItemKind.Field,
  value: CompletionItemKind.Value,
  decoration: CompletionItemKind.Event,
  pin: CompletionItemKind.Operator,
  key: CompletionItemKind.Property,
};

export function completion(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onCompletion(({ textDocument, position }, token) =>
    guard.answer('completion', [], token, async () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      const { tune, offset } = placeOf(document, position);
      const plan = tune >= 0 ? await planOf(desktop, document, tune) : null;
      const pins = plan ? features.pinCompletions.answer(plan, offset, defaultFeatureSettings) : [];
      const words = features.wordCompletions.answer(viewOf(document, tune), offset, defaultFeatureSettings);
      return [...pins, ...words].map((offer, i) => itemOf(document, tune, offer, i));
    }),
  );
}

function itemOf(document: OpenDocument, tune: number, offer: Offer, rank: number): CompletionItem {
  return {
    label: offer.label,
    kind: kinds[offer.kind],
    labelDetails: { description: offer.detail },
    ...(offer.explanation === '' ? {} : { documentation: { kind: MarkupKind.PlainText, value: offer.explanation } }),
    filterText: offer.filter,
    // The order is ours (easiest first), not the alphabet's.
    sortText: String(rank).padStart(4, '0'),
    textEdit: { range: rangeOf(document, tune, offer.span), newText: offer.insert },
    additionalTextEdits: offer.extra.map((edit) => textEdit(document, tune, edit)),
  };
}
