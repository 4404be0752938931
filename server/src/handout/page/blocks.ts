// The blocks of a page: what must not be split, with its height over and under its own origin.
import { type FontBook, markBox } from './fonts.ts';
import type { Face, Mark, TextMark } from './marks.ts';
import { joined, nothing } from './path.ts';

export interface Block {
  readonly kind: 'title' | 'heading' | 'row' | 'words' | 'system' | 'key';
  readonly marks: readonly Mark[];
  /** Points a unit of the marks. */
  readonly scale: number;
  /** Extent in points from the block's origin; top is negative over it. */
  readonly top: number;
  readonly bottom: number;
}

/** A block around marks. */
export function blockOf(fonts: FontBook, kind: Block['kind'], marks: readonly Mark[], scale: number): Block {
  const box = marks.map((mark) => markBox(fonts, mark)).reduce(joined, nothing);
  const empty = box.top > box.bottom;
  return { kind, marks, scale, top: empty ? 0 : box.top * scale, bottom: empty ? 0 : box.bottom * scale };
}

export const textMark = (text: string, x: number, y: number, size: number, face: Face, anchor: TextMark['anchor'] = 'start'): TextMark => ({
  kind: 'text',
  text,
  x,
  y,
  size,
  face,
  anchor,
  stretch: 1,
});

/** The largest size up to `size` at which a text is no wider than `width`; never under a third of it. */
export function fittingSize(fonts: FontBook, text: string, face: Face, size: number, width: number): number {
  const natural = fonts.width(text, face, size);
  return natural <= width ? size : Math.max(size / 3, (size * width) / natural);
}

/** A text broken at spaces into lines no wider than `width`; a longer word stands alone. */
export function wrapped(fonts: FontBook, text: string, face: Face, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && fonts.width(longer, face, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
