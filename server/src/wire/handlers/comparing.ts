// An open document against another state of its text, such as that of the last commit, as a page with both drawn side by side.
import type { CancellationToken } from 'vscode-languageserver';
import { readBook } from '../../abc/index.ts';
import { type Difference, differences, toldByBar } from '../../arrangement/index.ts';
import { makeTables } from '../../fingering/index.ts';
import type * as Handout from '../../handout/index.ts';
import { fontsOf, handoutTune } from '../handouts.ts';
import type { AskServer, CompareAsk } from '../protocol.ts';
import type { Desktop } from './index.ts';

type Comparing = AskServer['bullfiddle/compare'];

const without = (words: string): Comparing['answer'] => ({ page: null, words });

export function comparing(desktop: Desktop): void {
  const { connection, guard, host, documents } = desktop;
  connection.onRequest('bullfiddle/compare', (ask: CompareAsk, token: CancellationToken) =>
    guard.answer<Comparing['answer']>('compare', without('The two could not be compared; the log says why.'), token, async () => {
      const document = documents.get(ask.uri);
      if (!document) return without('The file is not open any more.');
      if (host.handouts === null) return without('Pages cannot be made in a browser yet. Open the folder in a desktop editor.');
      const found = await differencesOf(desktop, ask, token);
      if (found.length === 0) return without('Nothing a player would notice has changed.');
      const kit = await host.handouts.load();
      const title = `What changed: ${decodeURIComponent(ask.uri.slice(ask.uri.lastIndexOf('/') + 1))}`;
      const page = kit.comparisonPage(title, ask.before, 'Now', found.map(comparedTune), await fontsOf(kit, host.handouts));
      return { page, words: '' };
    }),
  );
}

/** The tunes that differ; others are let in after each tune. */
async function differencesOf(
  { documents, settings, host }: Desktop,
  ask: CompareAsk,
  token: CancellationToken,
): Promise<readonly Difference[]> {
  const found: Difference[] = [];
  const books = [readBook(ask.old), documents.get(ask.uri)!.book] as const;
  for (const difference of differences(...books, settings.of(ask.uri), makeTables(host.tableBytes))) {
    if (difference !== null) found.push(difference);
    await new Promise<void>((resolve) => host.soon(resolve));
    if (token.isCancellationRequested) return [];
  }
  return found;
}

function comparedTune(difference: Difference): Handout.ComparedTune {
  const { title, old, next } = difference;
  return { title, old: old && handoutTune(old.stage), next: next && handoutTune(next.stage), ...toldByBar(difference) };
}
