// Keeps the words under the notes apart: the library sets neighbouring syllables edge to edge.
import type { LibEngraver, LibTextSize } from './library.ts';

/** Least gap between two words, as a share of the size of their letters: a word space of a text face. */
const wordGap = 0.35;
/** After a hyphen, which is already a gap to the eye. */
const hyphenGap = 0.2;

const gapAfter = (text: string): number => (text.trimEnd().endsWith('-') ? hyphenGap : wordGap);

/** Lets the engraver take words for wider than they are drawn. It measures while it makes the elements: call it before that. */
export function keepWordsApart(engraver: LibEngraver): void {
  const measure = engraver.getTextSize;
  const spaced: LibTextSize = Object.create(measure);
  spaced.calc = (text, font, kind) => {
    const size = measure.calc(text, font, kind);
    if (kind !== 'lyric') return size;
    return { height: size.height, width: size.width + gapAfter(text) * measure.attr(font, kind).font.size };
  };
  engraver.getTextSize = spaced;
}
