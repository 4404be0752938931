// Links: web addresses in the text, and included files.
import { defaultFeatureSettings, features, type Link } from '../../features/index.ts';
import { rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { tunesOf, viewOf } from './stages.ts';

export function links({ connection, guard, documents }: Desktop): void {
  connection.onDocumentLinks(({ textDocument }, token) =>
    guard.answer('links', [], token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      return [-1, ...tunesOf(document)].flatMap((tune) =>
        features.links
          .answer(viewOf(document, tune), null, defaultFeatureSettings)
          .map((link) => ({ range: rangeOf(document, tune, link), target: targetOf(document.uri, link) })),
      );
    }),
  );
}

/** A file is named as seen from the folder of the document. */
const targetOf = (uri: string, link: Link): string =>
  link.kind === 'address' ? link.target : uri.replace(/[^/]*$/, encodeURI(link.target));
