// Handouts made for the editor: pages, text and sound of a tune or a whole book. The makers are loaded when first asked for.

import type { CancellationToken } from 'vscode-languageserver';
import type { PlanStage } from '../../arrangement/types.ts';
import type * as Handout from '../../handout/index.ts';
import { tuneAt } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import { fontsOf, handoutTune } from '../handouts.ts';
import type { HandoutMaker } from '../host.ts';
import type { AskServer, ExportAsk, HandoutFormat } from '../protocol.ts';
import type { Desktop } from './index.ts';
import { planOf, tunesOf } from './stages.ts';

type Exporting = AskServer['bullfiddle/export'];

const impossible = (message: string): Exporting['answer'] => ({ base64: null, words: [message] });

export function exporting(desktop: Desktop): void {
  const { connection, guard, host } = desktop;
  connection.onRequest('bullfiddle/export', (ask: ExportAsk, token: CancellationToken) =>
    guard.answer<Exporting['answer']>('export', impossible('The handout could not be made; the log says why.'), token, async () => {
      const document = desktop.documents.get(ask.uri);
      if (!document) return impossible('The file is not open any more.');
      if (host.handouts === null)
        return impossible(
          'Handouts cannot be made in a browser yet. Open the folder in a desktop editor, or use `bullfiddle handout` on the command line.',
        );
      const tunes = await handoutTunes(desktop, document, ask);
      if (tunes === null) return impossible('The text has changed meanwhile. Export again.');
      if (tunes.length === 0) return impossible('There is no tune here to export.');
      return make(host.handouts, { desktop, ask, tunes });
    }),
  );
}

/** null if the text changes while the fingering is searched for. */
async function handoutTunes(desktop: Desktop, document: OpenDocument, ask: ExportAsk): Promise<readonly Handout.HandoutTune[] | null> {
  const wanted = ask.at === null ? tunesOf(document) : [tuneAt(document, ask.at).tune].filter((tune) => tune >= 0);
  const plans: PlanStage[] = [];
  for (const tune of wanted) {
    const plan = await planOf(desktop, document, tune);
    if (plan === null) return null;
    plans.push(plan);
  }
  return plans.map(handoutTune);
}

interface Order {
  readonly desktop: Desktop;
  readonly ask: ExportAsk;
  readonly tunes: readonly Handout.HandoutTune[];
}

/** At the tune's own tempo, with one bar counted in. */
const practice = { speed: 1, countIn: 1, click: 'off', register: 'as-sounding' } as const;

/** Formats that hold one tune: of a book the first would be all. */
const single: readonly HandoutFormat[] = ['midi', 'wav', 'musicxml'];

async function make(maker: HandoutMaker, order: Order): Promise<Exporting['answer']> {
  const { tunes, ask, desktop } = order;
  if (tunes.length > 1 && single.includes(ask.format))
    return impossible('This format holds one tune: put the caret into it and export that tune.');
  const { paper, density, credit } = desktop.settings.handout(ask.uri);
  const look: Handout.ExportOptions = { paper, density, rhythm: 'none', credit: { by: credit, version: '', date: ask.date } };
  const kit = await maker.load();
  const tune = tunes[0]!;
  switch (ask.format) {
    case 'pdf':
    case 'html':
      return onPages(kit, maker, order, look);
    case 'text':
      return made(kit.utf8(tunes.map((one) => kit.textTab(one, look)).join('\n')));
    case 'midi':
      return made(kit.midiFile(tune, practice));
    case 'wav': {
      const sound = kit.wavFile(tune, practice);
      return 'problem' in sound ? impossible(sound.problem) : made(sound);
    }
    case 'musicxml':
      return made(kit.utf8(kit.musicXml(tune, look)));
  }
}

async function onPages(
  kit: typeof Handout,
  maker: HandoutMaker,
  { tunes, ask }: Order,
  look: Handout.ExportOptions,
): Promise<Exporting['answer']> {
  const fonts = await fontsOf(kit, maker);
  const order = { title: titleOf(tunes), front: null, tunes: kit.flowing(tunes), fonts, options: look, told: () => {} };
  const { sheet, flow, problems, missing } = kit.makeSheet(order);
  const words = problems.map(({ title, message }) => `"${title}" could not be engraved: ${message}`);
  if (missing.length > 0) words.push(`No font of ours has ${missing.slice(0, 10).join(' ')}: printed as a box.`);
  const bytes = ask.format === 'pdf' ? await kit.pdfFile(flow, fonts) : kit.utf8(kit.htmlFile(sheet, tunes, fonts, look, practice));
  return made(bytes, words);
}

/** One tune gives its own title; a book the name its `B:` field gives, else that of its first tune. */
const titleOf = (tunes: readonly Handout.HandoutTune[]): string => {
  const [first] = tunes;
  const book = first?.score.texts.find((text) => text.letter === 'B')?.text;
  return (tunes.length > 1 ? book : null) ?? first?.score.title ?? '';
};

function made(bytes: Uint8Array, words: readonly string[] = []): Exporting['answer'] {
  return { base64: base64(bytes), words };
}

/** Base64 by the language alone: the server's pure parts know no Node. */
function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < bytes.length; i += 0x8000) binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(binary);
}
