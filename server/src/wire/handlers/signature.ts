// The parts of a field's value while it is typed.
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { placeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { viewOf } from './stages.ts';

export function signature({ connection, guard, documents }: Desktop): void {
  connection.onSignatureHelp(({ textDocument, position }, token) =>
    guard.answer('signature', null, token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const { tune, offset } = placeOf(document, position);
      const found = features.signature.answer(viewOf(document, tune), offset, defaultFeatureSettings);
      if (found === null) return null;
      const parameters = found.parts.map((part) => ({ label: part.label, documentation: part.explanation }));
      const signatures = [{ label: found.label, documentation: found.explanation, parameters }];
      return { signatures, activeSignature: 0, activeParameter: found.active };
    }),
  );
}
