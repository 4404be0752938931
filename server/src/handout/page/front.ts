// A front page: title, paragraphs and tables of words, as blocks that pages are set from.
import { type Block, blockOf, fittingSize, textMark, wrapped } from './blocks.ts';
import type { FontBook } from './fonts.ts';
import type { TextMark } from './marks.ts';
import { gaps, margins, type Paper, sizes } from './paper.ts';

export interface FrontPage {
  readonly title: string;
  /** In italics under the title; may be empty. */
  readonly under: string;
  readonly items: readonly FrontItem[];
}

export type FrontItem =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  /** `widths` are shares of the line; the first row holds the heads. */
  | { readonly kind: 'table'; readonly widths: readonly number[]; readonly rows: readonly (readonly string[])[] };

export function frontBlocks(page: FrontPage, paper: Paper, fonts: FontBook): readonly Block[] {
  const width = paper.width - 2 * margins.side;
  const title = textMark(page.title, 0, 0, fittingSize(fonts, page.title, 'serif-bold', sizes.title, width), 'serif-bold');
  const under = linesOf(page.under, 'serif-italic', sizes.subtitle, 0, width, fonts, gaps.line * 1.5);
  return [blockOf(fonts, 'title', [title, ...under], 1), ...page.items.flatMap((item) => itemBlocks(item, width, fonts))];
}

function itemBlocks(item: FrontItem, width: number, fonts: FontBook): readonly Block[] {
  switch (item.kind) {
    case 'heading':
      return [blockOf(fonts, 'heading', linesOf(item.text, 'serif-bold', sizes.heading, 0, width, fonts, 0), 1)];
    case 'text':
      return [blockOf(fonts, 'row', linesOf(item.text, 'serif', sizes.words, 0, width, fonts, 0), 1)];
    case 'table':
      return item.rows.map((row, i) => rowBlock(row, i === 0 ? 'serif-italic' : 'serif', item.widths, width, fonts));
  }
}

/** Kept free at the right of a cell. */
const cellGap = 6;

function rowBlock(row: readonly string[], face: TextMark['face'], shares: readonly number[], width: number, fonts: FontBook): Block {
  let x = 0;
  const marks = row.flatMap((cell, i) => {
    const room = (shares[i] ?? 0) * width;
    const lines = linesOf(cell, face, sizes.credit, x, room - cellGap, fonts, 0);
    x += room;
    return lines;
  });
  return blockOf(fonts, 'row', marks, 1);
}

function linesOf(
  text: string,
  face: TextMark['face'],
  size: number,
  x: number,
  width: number,
  fonts: FontBook,
  y: number,
): readonly TextMark[] {
  return wrapped(fonts, text, face, size, width).map((line, i) => textMark(line, x, y + i * gaps.line, size, face));
}
