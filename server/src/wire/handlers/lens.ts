// The line over each tune: range, key, shifts, top tempo, hardest bar.
import type { CodeLens } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { rangeOf } from '../convert.ts';
import type { Desktop } from './index.ts';
import { planOf, tunesOf } from './stages.ts';

/** The client's command that shows the sheet. */
const openSheet = 'bullfiddle.sheet.open';

export function lens(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onCodeLens(({ textDocument }, token) =>
    guard.answer<CodeLens[]>('lens', [], token, () => {
      const document = documents.get(textDocument.uri);
      // Filled in when it comes into view: a book of many tunes fingers only what is seen.
      return (document ? tunesOf(document) : []).map((tune) => ({
        range: rangeOf(document!, tune, { from: 0, to: 0 }),
        data: { uri: textDocument.uri, version: document!.version, tune },
      }));
    }),
  );
  connection.onCodeLensResolve((one, token) =>
    guard.answer<CodeLens>('lens', one, token, async () => {
      const { uri, version, tune } = one.data as { uri: string; version: number; tune: number };
      const document = documents.get(uri);
      const plan = document?.version === version ? await planOf(desktop, document, tune) : null;
      const texts = plan ? features.lens.answer(plan, null, defaultFeatureSettings).map((each) => each.text) : [];
      return { ...one, command: { title: texts.join(' | ') || 'Open the sheet', command: openSheet } };
    }),
  );
}
