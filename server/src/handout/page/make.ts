// Tunes to a sheet: each engraved, titled and keyed, then set on pages.
import type { ExportOptions, HandoutTune } from '../types.ts';
import { type Block, blockOf, textMark, wrapped } from './blocks.ts';
import { engraveForPaper } from './engraved.ts';
import type { FontBook } from './fonts.ts';
import { type FrontPage, frontBlocks } from './front.ts';
import { keyBlock, titleBlock } from './furniture.ts';
import { gaps, margins, type Paper, papers, sizes } from './paper.ts';
import { type Sheet, type Starts, shareOfPage, sheetOf, type TuneBlocks } from './sheet.ts';

/** A sheet, and for tunes that could not be drawn, which and why. */
export interface MadeSheet {
  readonly sheet: Sheet;
  readonly problems: readonly { readonly title: string; readonly message: string }[];
  /** Letters that no font has, printed as a box. */
  readonly missing: readonly string[];
}

/** Sets tunes on pages. `told` hears of each tune done, for a progress line. */
export function makeSheet(
  tunes: readonly HandoutTune[],
  title: string,
  fonts: FontBook,
  options: ExportOptions,
  told: (done: number) => void,
): MadeSheet {
  const flowing = tunes.map((tune): BookTune => ({ tune, starts: 'anywhere' }));
  const { blocks, problems } = blocksOf(flowing, fonts, options, told);
  return finished(sheetOf(blocks, title, papers[options.paper], fonts, options), problems, fonts);
}

/** A tune with where it begins. */
export interface BookTune {
  readonly tune: HandoutTune;
  readonly starts: Starts;
}

/** A front page made when the number of the page on which each tune begins is known (from 1). */
export type FrontOf = (pageOf: (tune: number) => number) => FrontPage;

/** As `makeSheet`, with a front page that tells where the tunes stand. */
export function makeBook(
  front: FrontOf,
  tunes: readonly BookTune[],
  title: string,
  fonts: FontBook,
  options: ExportOptions,
  told: (done: number) => void,
): MadeSheet {
  const paper = papers[options.paper];
  const { blocks, problems } = blocksOf(tunes, fonts, options, told);
  const behind = (page: FrontPage): Sheet => {
    const first: TuneBlocks = { title: page.title, starts: 'page', blocks: frontBlocks(page, paper, fonts) };
    return sheetOf([first, ...blocks], title, paper, fonts, options);
  };
  // The front takes the same room whatever the numbers are.
  const draft = behind(front(() => 100));
  return finished(behind(front((tune) => draft.bookmarks[tune + 1]!.page + 1)), problems, fonts);
}

function blocksOf(tunes: readonly BookTune[], fonts: FontBook, options: ExportOptions, told: (done: number) => void) {
  const problems: { title: string; message: string }[] = [];
  const blocks = tunes.map(({ tune, starts }, i): TuneBlocks => {
    const title = tune.score.title === '' ? 'Untitled' : tune.score.title;
    const made = fittedBlocks(tune, papers[options.paper], fonts, options);
    if (made.problem !== null) problems.push({ title, message: made.problem });
    told(i + 1);
    return { title, starts, blocks: made.blocks };
  });
  return { blocks, problems };
}

const finished = (sheet: Sheet, problems: MadeSheet['problems'], fonts: FontBook): MadeSheet => ({
  sheet,
  problems,
  missing: missingLetters(sheet, fonts),
});

function missingLetters(sheet: Sheet, fonts: FontBook): readonly string[] {
  const marks = sheet.pages.flatMap((page) => page.placed.flatMap((placed) => placed.marks));
  const letters = new Set(marks.flatMap((mark) => (mark.kind === 'text' ? [...mark.text] : [])));
  return [...letters].filter((letter) => !fonts.has(letter));
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
  const music = engraveForPaper(tune, paper, fonts, options.density, size);
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
