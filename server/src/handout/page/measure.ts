// Measures texts by the fonts that print them.
import type { Measure } from '../../engraving/index.ts';
import { plainText } from '../../engraving/index.ts';
import type { FontBook } from './fonts.ts';
import { faceOf } from './walk.ts';

/** Kept free between the words of a song, as a share of the size: the library sets neighbours edge to edge. */
const wordSpace = 0.3;

/** The library gives lyrics, and nothing else, a last line that is empty. */
const isLyric = (lines: readonly string[]): boolean => lines.length > 1 && lines.at(-1) === '';

/** A text's box: the advance of its widest line; height by whole pixels of the face, as a browser rounds it. */
export function measureBy(fonts: FontBook): Measure {
  return (said, attributes) => {
    const size = Number.parseFloat(attributes['font-size'] ?? '') || 16;
    const face = faceOf(attributes);
    const { ascent, descent } = fonts.lines[face];
    const lines = plainText(said).split('\n');
    const room = isLyric(lines) ? wordSpace * size : 0;
    const widths = lines.map((line) => fonts.width(line, face, size) + (line === '' ? 0 : room));
    const height = Math.round(ascent * size) + Math.round(descent * size) + Math.max(0, widths.length - 1) * 1.2 * size;
    return { width: Math.max(0, ...widths), height: widths.some((width) => width > 0) ? height : 0 };
  };
}
