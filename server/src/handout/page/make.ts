// Tunes to pages: each engraved, titled and keyed, then set, a page at a time.
import type { ExportOptions, HandoutTune } from '../types.ts';
import { type Block, blockOf, textMark, wrapped } from './blocks.ts';
import { engraveForPaper } from './engraved.ts';
import type { FontBook } from './fonts.ts';
import { type FrontPage, frontBlocks } from './front.ts';
import { keyBlock, titleBlock } from './furniture.ts';
import { gaps, margins, type Paper, papers, sizes } from './paper.ts';
import { foot, type Page, type Placed, type SetPage, type Sheet, type Starts, setPages, shareOfPage, type TuneBlocks } from './sheet.ts';

/** A tune with where it begins. */
export interface BookTune {
  readonly tune: HandoutTune;
  readonly starts: Starts;
}

/** A front page made when the number of the page on which each tune begins is known (from 1). */
export type FrontOf = (pageOf: (tune: number) => number) => FrontPage;

/** What pages are made from. */
export interface PageOrder {
  readonly title: string;
  readonly front: FrontOf | null;
  /** Each is asked for when the one before it is set. */
  readonly tunes: Iterable<BookTune>;
  readonly fonts: FontBook;
  readonly options: ExportOptions;
  /** Hears of each tune done, for a progress line. */
  readonly told: (done: number) => void;
}

/** What was wrong. */
export interface PageProblems {
  /** Tunes that could not be drawn, and why. */
  readonly problems: readonly { readonly title: string; readonly message: string }[];
  /** Letters that no font has, printed as a box. */
  readonly missing: readonly string[];
}

/** Pages made as they are asked for, so that none need be kept: to be gone through once, in order. */
export interface Flow {
  readonly title: string;
  readonly paper: Paper;
  /** Titles of the pages in front: they are blank until `last` fills them. */
  readonly front: readonly (string | null)[];
  readonly pages: Iterable<SetPage>;
  /** What is added to each page, front pages first, when all have been gone through. */
  last(): readonly (readonly Placed[])[];
  /** Known at the end. */
  faults(): PageProblems;
}

/** Tunes one below the other where they fit whole, without a front. */
export const flowing = function* (tunes: Iterable<HandoutTune>): Iterable<BookTune> {
  for (const tune of tunes) yield { tune, starts: 'anywhere' };
};

/** Starts a book; its pages are made while they are gone through. */
export function flowOf(order: PageOrder): Flow {
  const { title, front, fonts, options } = order;
  const paper = papers[options.paper];
  const problems: { title: string; message: string }[] = [];
  const letters = lettersSeen(fonts);
  const starts: number[] = [];
  const frontOf = (pageOf: (tune: number) => number): readonly SetPage[] => (front === null ? [] : setFront(front(pageOf), paper, fonts));
  // The front takes the same room whatever the numbers are.
  const draft = frontOf(() => 100);
  let count = draft.length;
  return {
    title,
    paper,
    front: draft.map((page) => page.begins[0]?.title ?? null),
    pages: (function* () {
      for (const page of setPages(blocksOf(order, problems), paper, count)) {
        for (const { tune } of page.begins) starts[tune] = count;
        count++;
        letters.see(page);
        yield page;
      }
    })(),
    last() {
      const filled = frontOf((tune) => (starts[tune] ?? 0) + 1);
      filled.forEach(letters.see);
      return Array.from({ length: count }, (_, p) => [...(filled[p]?.placed ?? []), foot(p, count, title, paper, fonts, options)]);
    },
    faults: () => ({ problems, missing: letters.missing() }),
  };
}

const setFront = (page: FrontPage, paper: Paper, fonts: FontBook): readonly SetPage[] => [
  ...setPages([{ title: page.title, starts: 'page', blocks: frontBlocks(page, paper, fonts) }], paper, 0),
];

/** A sheet with all its pages, and what was wrong. */
export interface MadeSheet extends PageProblems {
  readonly sheet: Sheet;
  /** The same pages, to be gone through again. */
  readonly flow: Flow;
}

/** All pages at once, for painters that want them so. */
export function makeSheet(order: PageOrder): MadeSheet {
  const flow = flowOf(order);
  const { title, paper } = flow;
  const pages = [...flow.pages];
  const last = flow.last();
  const front = flow.front.map((of) => ({ placed: [], titles: of === null ? [] : [of] }));
  const all = [...front, ...pages.map(({ placed, begins }) => ({ placed, titles: begins.map((begun) => begun.title) }))];
  const sheet = {
    title,
    paper,
    pages: all.map(({ placed }, p): Page => ({ placed: [...placed, ...last[p]!] })),
    bookmarks: all.flatMap(({ titles }, page) => titles.map((of) => ({ title: of, page }))),
  };
  return { sheet, flow: { ...flow, pages, last: () => last }, ...flow.faults() };
}

/** Blocks of each tune when it is asked for. */
function* blocksOf({ tunes, fonts, options, told }: PageOrder, problems: { title: string; message: string }[]): Iterable<TuneBlocks> {
  let done = 0;
  for (const { tune, starts } of tunes) {
    const title = tune.score.title === '' ? 'Untitled' : tune.score.title;
    const made = fittedBlocks(tune, papers[options.paper], fonts, options);
    if (made.problem !== null) problems.push({ title, message: made.problem });
    told(++done);
    yield { title, starts, blocks: made.blocks };
  }
}

function lettersSeen(fonts: FontBook): { see(page: Page): void; missing(): readonly string[] } {
  const seen = new Set<string>();
  return {
    see(page) {
      for (const { marks } of page.placed)
        for (const mark of marks) if (mark.kind === 'text') for (const letter of mark.text) seen.add(letter);
    },
    missing: () => [...seen].filter((letter) => !fonts.has(letter)),
  };
}

/** Staff sizes tried to get a tune on one page, as shares of the usual one: below 6.5 mm a page is hard to read from a stand. */
const staffSizes = [1, 0.94, 0.88] as const;

interface TuneOnPaper {
  readonly blocks: readonly Block[];
  readonly problem: string | null;
}

/** A tune that runs over its page by little is set a little smaller; one that needs more pages keeps the usual size. */
function fittedBlocks(tune: HandoutTune, paper: Paper, fonts: FontBook, options: ExportOptions): TuneOnPaper {
  const usual = tuneBlocks(tune, paper, fonts, options, staffSizes[0]);
  const share = shareOfPage(usual.blocks, paper);
  if (usual.problem !== null || share <= 1 || share > 1.2) return usual;
  for (const size of staffSizes.slice(1)) {
    const smaller = tuneBlocks(tune, paper, fonts, options, size);
    if (shareOfPage(smaller.blocks, paper) <= 1) return smaller;
  }
  return usual;
}

function tuneBlocks(tune: HandoutTune, paper: Paper, fonts: FontBook, options: ExportOptions, size: number): TuneOnPaper {
  const music = engraveForPaper(tune, paper, fonts, options, size);
  const body = music.kind === 'drawn' ? music.blocks : [notice('This tune could not be engraved.', paper, fonts)];
  const key = keyBlock(tune, paper, fonts);
  return {
    blocks: [titleBlock(tune, paper, fonts), ...body, ...(key ? [key] : [])],
    problem: music.kind === 'failed' ? music.message : null,
  };
}

function notice(text: string, paper: Paper, fonts: FontBook): Block {
  const lines = wrapped(fonts, text, 'serif-italic', sizes.words, paper.width - 2 * margins.side);
  return blockOf(
    fonts,
    'words',
    lines.map((line, i) => textMark(line, 0, i * gaps.line, sizes.words, 'serif-italic')),
    1,
  );
}
