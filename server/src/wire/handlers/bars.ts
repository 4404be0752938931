// Where the caret goes by bars, and the strings of the part at the caret.
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { tuneAt, tuneStart } from '../convert.ts';
import type { AskServer } from '../protocol.ts';
import type { Desktop } from './index.ts';
import { partOf, scoreOf } from './stages.ts';

type Bar = AskServer['bullfiddle/bar'];
type Strings = AskServer['bullfiddle/strings'];

export function bars(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onRequest('bullfiddle/bar', ({ uri, offset, way }: Bar['ask']) =>
    guard.answer<Bar['answer']>('bar', null, null, () => {
      const document = documents.get(uri);
      if (!document) return null;
      const { tune, offset: at } = tuneAt(document, offset);
      const goal = tune < 0 ? null : features.moveByBar.answer(scoreOf(document, tune), { at, way }, defaultFeatureSettings);
      return goal === null ? null : tuneStart(document, tune) + goal;
    }),
  );
  connection.onRequest('bullfiddle/strings', ({ uri, offset }: Strings['ask']) =>
    guard.answer<Strings['answer']>('strings', [], null, () => {
      const document = documents.get(uri);
      const tune = document ? tuneAt(document, offset).tune : -1;
      const part = tune < 0 ? undefined : partOf(desktop, document!, tune).parts.find((one) => one.kind === 'bass');
      return part?.kind === 'bass' ? part.setup.tuning.strings.map((string) => string.name) : [];
    }),
  );
}
