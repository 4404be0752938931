// Hover: what stands at the pointer, as far as it is known; the place joins in if its search is done in time.
import { MarkupKind } from 'vscode-languageserver';
import { defaultFeatureSettings, features, type Hover } from '../../features/index.ts';
import { placeOf, rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { partOf, planOf, viewOf } from './stages.ts';

/** The pitch is shown without the place if the fingering takes longer (ms). */
const patience = 300;

export function hover(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onHover(({ textDocument, position }, token) =>
    guard.answer('hover', null, token, async () => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const { tune, offset } = placeOf(document, position);
      const found: (Hover | null)[] = [features.textHover.answer(viewOf(document, tune), offset, defaultFeatureSettings)];
      if (tune >= 0) {
        found.push(features.pitchHover.answer(partOf(desktop, document, tune), offset, defaultFeatureSettings));
        const plan = found[1] === null ? null : await atMost(patience, planOf(desktop, document, tune));
        if (plan !== null) found.push(features.placeHover.answer(plan, offset, defaultFeatureSettings));
      }
      const hovers = found.filter((one) => one !== null);
      const [first] = hovers;
      if (first === undefined) return null;
      const value = hovers.flatMap((one) => one.text).join('\n\n');
      return { contents: { kind: MarkupKind.Markdown, value }, range: rangeOf(document, tune, first) };
    }),
  );
}

/** The answer, or null after `ms` milliseconds. */
function atMost<T>(ms: number, answer: Promise<T | null>): Promise<T | null> {
  return Promise.race([answer, new Promise<null>((resolve) => setTimeout(() => resolve(null), ms))]);
}
