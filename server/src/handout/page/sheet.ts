// Blocks set on pages, one page after the other: no block is split, a title stays with its first system, full pages are spread evenly.
import type { ExportOptions } from '../types.ts';
import { type Block, textMark } from './blocks.ts';
import type { FontBook } from './fonts.ts';
import type { Mark } from './marks.ts';
import { gaps, margins, type Paper, sizes } from './paper.ts';

/** Marks with the place of their origin on the page and the points a unit takes. */
export interface Placed {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly marks: readonly Mark[];
}

export interface Page {
  readonly placed: readonly Placed[];
}

/** A page as it is set, before its foot is known. */
export interface SetPage extends Page {
  /** Tunes that begin on it, by their index. */
  readonly begins: readonly { readonly tune: number; readonly title: string }[];
}

/** What every kind of page export is painted from. */
export interface Sheet {
  readonly title: string;
  readonly paper: Paper;
  readonly pages: readonly Page[];
  readonly bookmarks: readonly { readonly title: string; readonly page: number }[];
}

/** Where a tune may begin: below the one before if it fits there whole, or on a new page: any, one on the left of an open book, or one on the right. */
export type Starts = 'anywhere' | 'page' | 'left' | 'right';

/** The blocks of one tune, in order. */
export interface TuneBlocks {
  readonly title: string;
  readonly starts: Starts;
  readonly blocks: readonly Block[];
}

interface SetBlock {
  readonly block: Block;
  /** Gap over it, least and most. */
  readonly gap: number;
  readonly stretch: number;
  /** Index of the tune that begins here, or null. */
  readonly begins: number | null;
}

/**
 * Sets tunes on pages, each tune asked for when the one before is set; an empty page stands before one that must begin on the other side.
 * `before` pages lie in front.
 */
export function* setPages(tunes: Iterable<TuneBlocks>, paper: Paper, before: number): Iterable<SetPage> {
  const titles: string[] = [];
  let number = before;
  let page: SetBlock[] | null = null;
  const done = (spread: 'spread' | 'close'): SetPage => ({
    placed: placedOn(page ?? [], paper, spread),
    begins: (page ?? []).flatMap(({ begins }) => (begins === null ? [] : [{ tune: begins, title: titles[begins]! }])),
  });
  const turned = function* (): Iterable<SetPage> {
    if (page !== null) yield done('spread');
    page = [];
    number++;
  };
  for (const { title, starts, blocks } of tunes) {
    const set = withGaps(blocks, titles.length);
    titles.push(title);
    if (starts !== 'anywhere' || page === null || heightOf([...page, ...set]) > room(paper)) yield* turned();
    if (onWrongSide(starts, number)) yield* turned();
    for (const together of unsplit(set)) {
      if (page!.length > 0 && heightOf([...page!, ...together]) > room(paper)) yield* turned();
      page!.push(...together);
    }
  }
  if (page !== null) yield done('close');
}

/** Whether a page with this number (from 1) lies on the other side of an open book: left pages are even. */
const onWrongSide = (starts: Starts, page: number): boolean =>
  (starts === 'left' && page % 2 === 1) || (starts === 'right' && page % 2 === 0);

/** Share of a page that the blocks of a tune take, set as close as they may be. */
export const shareOfPage = (blocks: readonly Block[], paper: Paper): number => heightOf(withGaps(blocks, 0)) / room(paper);

const room = (paper: Paper): number => paper.height - margins.top - margins.bottom - gaps.line;

function withGaps(blocks: readonly Block[], tune: number): readonly SetBlock[] {
  return blocks.map((block, i) => {
    const before = blocks[i - 1]?.kind ?? null;
    const systems = block.kind === 'system' && before === 'system';
    const gap = i === 0 ? gaps.beforeTune : gapBefore(block.kind, before);
    return { block, gap, stretch: systems ? gaps.most - gaps.least : 0, begins: i === 0 ? tune : null };
  });
}

function gapBefore(kind: Block['kind'], before: Block['kind'] | null): number {
  if (kind === 'key') return gaps.beforeKey;
  if (kind === 'row') return gaps.row;
  return before === 'title' ? gaps.afterTitle : gaps.least;
}

/** Title and words go with what follows, the key with the last system. */
function unsplit(blocks: readonly SetBlock[]): readonly (readonly SetBlock[])[] {
  const groups: SetBlock[][] = [];
  for (const [i, set] of blocks.entries()) {
    const before = blocks[i - 1]?.block.kind;
    if (i > 0 && (before === 'title' || before === 'heading' || before === 'words' || set.block.kind === 'key')) groups.at(-1)!.push(set);
    else groups.push([set]);
  }
  return groups;
}

/** Height of blocks on a page with the least gaps; the first needs none over it. */
const heightOf = (blocks: readonly SetBlock[]): number =>
  blocks.reduce((sum, { block, gap }, i) => sum + (i === 0 ? 0 : gap) + block.bottom - block.top, 0);

/** Blocks in their places: a page before others is spread to its foot, the last set close. */
function placedOn(blocks: readonly SetBlock[], paper: Paper, set: 'spread' | 'close'): readonly Placed[] {
  const spare = Math.max(0, room(paper) - heightOf(blocks));
  const stretch = blocks.slice(1).reduce((sum, set) => sum + set.stretch, 0);
  const share = set === 'spread' && stretch > 0 ? Math.min(1, spare / stretch) : 0;
  let y = margins.top;
  return blocks.map(({ block, gap, stretch: more }, i) => {
    if (i > 0) y += gap + more * share;
    const placed = { x: margins.side, y: y - block.top, scale: block.scale, marks: block.marks };
    y += block.bottom - block.top;
    return placed;
  });
}

/** The foot of a page (from 0) of so many: who made it, the title, its number. */
export function foot(page: number, pages: number, title: string, paper: Paper, fonts: FontBook, options: ExportOptions): Placed {
  const { by, version, date } = options.credit;
  const y = paper.height - margins.bottom;
  const width = paper.width - 2 * margins.side;
  const left = [by, version, date].filter((text) => text !== '').join(', ');
  const number = pages > 1 ? `${page + 1} / ${pages}` : '';
  const marks = [textMark(left, 0, 0, sizes.foot, 'serif'), textMark(number, width, 0, sizes.foot, 'serif', 'end')];
  const middle =
    page > 0 && fonts.width(title, 'serif', sizes.foot) < width / 2 ? [textMark(title, width / 2, 0, sizes.foot, 'serif', 'middle')] : [];
  return { x: margins.side, y, scale: 1, marks: [...marks, ...middle].filter((mark) => mark.text !== '') };
}
