// The low and the high version of a tune as a page with both drawn side by side, bar by bar.
import type { CancellationToken } from 'vscode-languageserver';
import { pairVersions, scoreStage, versionOf } from '../../arrangement/index.ts';
import type { PlanStage, ScoreStage } from '../../arrangement/types.ts';
import { tuneAt } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import { fontsOf, handoutTune } from '../handouts.ts';
import type { AskServer, BesideAsk } from '../protocol.ts';
import type { Desktop } from './index.ts';
import { planOf } from './stages.ts';

type Answer = AskServer['bullfiddle/beside']['answer'];

const without = (words: string): Answer => ({ page: null, tune: null, words });

export function beside(desktop: Desktop): void {
  const { connection, guard, host, documents } = desktop;
  connection.onRequest('bullfiddle/beside', (ask: BesideAsk, token: CancellationToken) =>
    guard.answer<Answer>('beside', without('The two could not be drawn; the log says why.'), token, async () => {
      const document = documents.get(ask.uri);
      if (!document) return without('The file is not open any more.');
      if (host.handouts === null) return without('Pages cannot be made in a browser yet. Open the folder in a desktop editor.');
      const pair = pairFor(document, ask);
      if ('words' in pair) return without(pair.words);
      const low = await planned(desktop, document, pair.low.index);
      const high = await planned(desktop, document, pair.high.index);
      if (low === null || high === null) return without('The text has changed meanwhile. Run the command again.');
      const kit = await host.handouts.load();
      const page = kit.versionsPage(pair.title, column(low), column(high), pairVersions(low, high), await fontsOf(kit, host.handouts));
      return { page, tune: pair.tune, words: '' };
    }),
  );
}

/** The plan; asked for once more where settings that came in meanwhile ended the search. */
const planned = async (desktop: Desktop, document: OpenDocument, tune: number): Promise<PlanStage | null> =>
  (await planOf(desktop, document, tune)) ?? planOf(desktop, document, tune);

const column = (stage: PlanStage) => ({ name: stage.score.title, tune: handoutTune(stage) });

interface Pair {
  readonly tune: string;
  readonly title: string;
  readonly low: ScoreStage;
  readonly high: ScoreStage;
}

/** The tune's low and high version: the one at the caret, else the first of its kind. */
function pairFor(document: OpenDocument, ask: BesideAsk): Pair | { readonly words: string } {
  const stages = document.book.tunes.map((_, i) => scoreStage(document.book, i));
  // A caret before the first tune stands for it.
  const here = ask.tune === null ? stages[Math.max(0, tuneAt(document, ask.offset).tune)] : undefined;
  const tune = ask.tune ?? (here && versionOf(here)?.tune) ?? '';
  if (tune === '') return { words: 'This tune has no versions. Put the caret into a melody and arrange a low and a high version first.' };
  const family = stages.filter((stage) => versionOf(stage)?.tune === tune);
  const of = (kind: string): ScoreStage | undefined => {
    const all = family.filter((stage) => versionOf(stage)!.version.startsWith(kind));
    return all.find((stage) => stage.index === here?.index) ?? all[0];
  };
  const [low, high] = [of('low'), of('high')];
  if (low === undefined) return { words: 'This tune has no low version yet: Arrange Low Version makes one from the melody.' };
  if (high === undefined) return { words: 'This tune has no high version yet: Arrange High Version makes one from the melody.' };
  return { tune, title: (of('source') ?? low).score.title, low, high };
}
