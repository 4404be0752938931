// Tunes to a sheet: each engraved, titled and keyed, then set on pages.
import type { ExportOptions, HandoutTune } from '../types.ts';
import { blockOf, textMark, wrapped } from './blocks.ts';
import { engraveForPaper } from './engraved.ts';
import type { FontBook } from './fonts.ts';
import { keyBlock, titleBlock } from './furniture.ts';
import { gaps, margins, type Paper, papers, sizes } from './paper.ts';
import { type Sheet, sheetOf, type TuneBlocks } from './sheet.ts';

/** A sheet, and for tunes that could not be drawn, which and why. */
export interface MadeSheet {
  readonly sheet: Sheet;
  readonly problems: readonly { readonly title: string; readonly message: string }[];
}

/** Sets tunes on pages. `told` hears of each tune done, for a progress line. */
export function makeSheet(
  tunes: readonly HandoutTune[],
  title: string,
  fonts: FontBook,
  options: ExportOptions,
  told: (done: number) => void,
): MadeSheet {
  const paper = papers[options.paper];
  const problems: { title: string; message: string }[] = [];
  const blocks = tunes.map((tune, i): TuneBlocks => {
    const name = tune.score.title === '' ? 'Untitled' : tune.score.title;
    const music = engraveForPaper(tune, paper, fonts, options.density);
    if (music.kind === 'failed') problems.push({ title: name, message: music.message });
    const body = music.kind === 'drawn' ? music.blocks : [notice('This tune could not be engraved.', paper, fonts)];
    const key = keyBlock(tune, paper, fonts);
    told(i + 1);
    return { title: name, blocks: [titleBlock(tune, i === 0 ? 'first' : 'later', paper, fonts), ...body, ...(key ? [key] : [])] };
  });
  return { sheet: sheetOf(blocks, title, paper, fonts, options), problems };
}

function notice(text: string, paper: Paper, fonts: FontBook) {
  const lines = wrapped(fonts, text, 'serif-italic', sizes.words, paper.width - 2 * margins.side);
  return blockOf(
    fonts,
    'words',
    lines.map((line, i) => textMark(line, 0, i * gaps.line, sizes.words, 'serif-italic')),
    1,
  );
}
