// One writer a format: the tunes of a file in, files with names out. The handout bundle is loaded when the first is asked for.
import type {
  ExportOptions,
  Flow,
  FontBook,
  HandoutTune,
  MadeSheet,
  PageOrder,
  PageProblems,
  PracticeOptions,
} from '../../handout/index.ts';
import { messageOf } from '../sources.ts';
import { slugged } from './file-names.ts';

/** A file to be written, or what went wrong. Bytes that come in pieces are made while they are written. */
export type Made =
  | { readonly kind: 'file'; readonly name: string; readonly bytes: Uint8Array | AsyncIterable<Uint8Array> }
  | { readonly kind: 'problem'; readonly message: string };

/** Tunes made ready when they are asked for, so that a long book need not be held. */
export interface TuneSource extends Iterable<HandoutTune> {
  readonly count: number;
}

export interface Wanted {
  readonly tunes: TuneSource;
  /** Pages that several formats are painted from are kept; those of one pass by. */
  readonly pages: 'kept' | 'passing';
  readonly look: ExportOptions;
  /** Name of the tune file without its ending. */
  readonly stem: string;
  /** How a tune is played; a problem where it has not what was asked. */
  readonly practice: (tune: HandoutTune) => Promise<PracticeOptions | { readonly problem: string }>;
  /** How the player of a page plays. */
  readonly page: PracticeOptions;
  /** The fonts, opened once a run: they remember the widths of words. */
  readonly fonts: () => Promise<FontBook>;
  readonly told: (done: number) => void;
}

type Writer = (wanted: Wanted) => AsyncIterable<Made>;

const load = () => import('../../handout/index.ts');
const file = (name: string, bytes: Uint8Array | AsyncIterable<Uint8Array>): Made => ({ kind: 'file', name, bytes });
const tuneName = (tune: HandoutTune): string => slugged(tune.score.title);

interface Drawn {
  readonly made: MadeSheet;
  readonly fonts: FontBook;
}

/** Sheets made, so that several formats of one run are painted from one. */
const sheets = new WeakMap<Wanted, Promise<Drawn>>();

function drawnOf(wanted: Wanted): Promise<Drawn> {
  const known = sheets.get(wanted) ?? draw(wanted);
  sheets.set(wanted, known);
  return known;
}

async function draw(wanted: Wanted): Promise<Drawn> {
  const { makeSheet } = await load();
  const fonts = await wanted.fonts();
  return { made: makeSheet(await orderOf(wanted, fonts)), fonts };
}

async function orderOf(wanted: Wanted, fonts: FontBook): Promise<PageOrder> {
  const { flowing } = await load();
  const { look: options, told } = wanted;
  return { title: titleOf(wanted), front: null, tunes: flowing(wanted.tunes), fonts, options, told };
}

/** Files painted from the sheet of all tunes, with what could not be drawn or printed. */
async function* onSheet(wanted: Wanted, paint: (drawn: Drawn) => AsyncIterable<Made>): AsyncIterable<Made> {
  const drawn = await drawnOf(wanted);
  yield* paint(drawn);
  yield* faultsOf(drawn.made);
}

function* faultsOf({ problems, missing }: PageProblems): Iterable<Made> {
  for (const { title, message } of problems) yield { kind: 'problem', message: `"${title}" could not be engraved: ${message}` };
  if (missing.length > 0) yield { kind: 'problem', message: `no font of ours has ${missing.slice(0, 10).join(' ')}: printed as a box.` };
}

/** One tune gives its own title; a book the name its `B:` field gives, else the file's. */
function titleOf({ tunes, stem }: Wanted): string {
  const [first] = tunes;
  const book = first?.score.texts.find((text) => text.letter === 'B')?.text ?? stem;
  return tunes.count === 1 ? first!.score.title : book;
}

async function* pdf(wanted: Wanted): AsyncIterable<Made> {
  const { flowOf } = await load();
  const fonts = await wanted.fonts();
  const flow = wanted.pages === 'kept' ? (await drawnOf(wanted)).made.flow : flowOf(await orderOf(wanted, fonts));
  yield* pdfOf(`${wanted.stem}.pdf`, flow, fonts);
}

/** A PDF of pages that are made while it is written, then what was wrong with them. */
export async function* pdfOf(name: string, flow: Flow, fonts: FontBook): AsyncIterable<Made> {
  const { pdfChunks } = await load();
  yield file(name, pdfChunks(flow, fonts));
  yield* faultsOf(flow.faults());
}

const svg: Writer = (wanted) =>
  onSheet(wanted, async function* ({ made, fonts }) {
    const { svgPage, utf8 } = await load();
    for (const [i, page] of made.sheet.pages.entries())
      yield file(`${wanted.stem}-page-${i + 1}.svg`, utf8(svgPage(made.sheet, page, fonts, 'outlines')));
  });

const html: Writer = (wanted) =>
  onSheet(wanted, async function* ({ made, fonts }) {
    const { htmlFile, utf8 } = await load();
    yield file(`${wanted.stem}.html`, utf8(htmlFile(made.sheet, [...wanted.tunes], fonts, wanted.look, wanted.page)));
  });

/** Pixels a point: 300 dots an inch. */
const pngScale = 300 / 72;

const png: Writer = (wanted) =>
  onSheet(wanted, async function* ({ made, fonts }) {
    const painter = await pngPainter();
    if (painter.kind === 'problem') {
      yield painter;
      return;
    }
    const { svgPage } = await load();
    for (const [i, page] of made.sheet.pages.entries()) {
      const bytes = painter.paint(svgPage(made.sheet, page, fonts, 'outlines'));
      yield file(`${wanted.stem}-page-${i + 1}.png`, bytes);
    }
  });

type Painter =
  | { readonly kind: 'painter'; readonly paint: (svg: string) => Uint8Array }
  | { readonly kind: 'problem'; readonly message: string };

async function pngPainter(): Promise<Painter> {
  try {
    const { Resvg } = await import('@resvg/resvg-js');
    const paint = (svg: string): Uint8Array =>
      new Resvg(svg, { fitTo: { mode: 'zoom', value: pngScale }, background: '#fff' }).render().asPng();
    return { kind: 'painter', paint };
  } catch (problem) {
    return {
      kind: 'problem',
      message: `PNG wants the package @resvg/resvg-js beside bullfiddle (npm install @resvg/resvg-js): ${messageOf(problem).split('\n')[0]}`,
    };
  }
}

async function* text(wanted: Wanted): AsyncIterable<Made> {
  const { textTab, utf8 } = await load();
  yield file(`${wanted.stem}.txt`, utf8(Array.from(wanted.tunes, (tune) => textTab(tune, wanted.look)).join(`\n${'='.repeat(78)}\n\n`)));
}

async function* midi(wanted: Wanted): AsyncIterable<Made> {
  const { midiFile } = await load();
  yield* tracks(wanted, 'mid', midiFile);
}

async function* wav(wanted: Wanted): AsyncIterable<Made> {
  const { wavFile } = await load();
  yield* tracks(wanted, 'wav', wavFile);
}

type Track = (tune: HandoutTune, practice: PracticeOptions) => Uint8Array | { readonly problem: string };

async function* tracks(wanted: Wanted, ending: string, play: Track): AsyncIterable<Made> {
  let done = 0;
  for (const tune of wanted.tunes) {
    const practice = await wanted.practice(tune);
    const made = 'problem' in practice ? practice : play(tune, practice);
    yield 'problem' in made
      ? { kind: 'problem', message: `"${tune.score.title}": ${made.problem}` }
      : file(`${tuneName(tune)}.${ending}`, made);
    wanted.told(++done);
  }
}

async function* musicxml(wanted: Wanted): AsyncIterable<Made> {
  const { musicXml, utf8 } = await load();
  for (const tune of wanted.tunes) yield file(`${tuneName(tune)}.musicxml`, utf8(musicXml(tune, wanted.look)));
}

/** Every format of the command line. */
export const writers = { pdf, html, svg, png, text, midi, wav, musicxml } as const satisfies Readonly<Record<string, Writer>>;
