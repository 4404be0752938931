// Where a part, voice, user symbol or tune is named first, and everywhere it is named.
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { placeOf, rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { treeOf } from './stages.ts';

export function definition({ connection, guard, documents }: Desktop): void {
  const find = (which: 'definition' | 'references', uri: string, position: Parameters<typeof placeOf>[1]) => {
    const document = documents.get(uri);
    if (!document) return [];
    const { tune, offset } = placeOf(document, position);
    if (tune < 0) return [];
    const places = features[which].answer(treeOf(document, tune), offset, defaultFeatureSettings);
    return places.map((place) => ({ uri, range: rangeOf(document, place.tune, place) }));
  };
  connection.onDefinition(({ textDocument, position }, token) =>
    guard.answer('definition', [], token, () => find('definition', textDocument.uri, position)),
  );
  connection.onReferences(({ textDocument, position }, token) =>
    guard.answer('references', [], token, () => find('references', textDocument.uri, position)),
  );
}
