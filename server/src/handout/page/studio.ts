// Where a system is engraved for paper: a document of our own, measured by the fonts that print it.
import type { InkNode, Studio } from '../../engraving/index.ts';
import type { FontBook } from './fonts.ts';
import type { Mark } from './marks.ts';
import { type Measure, type PaperDocument, type PaperElement, paperDocument } from './paper-dom.ts';
import { faceOf, marksIn } from './walk.ts';

export interface PaperStudio extends Studio<readonly Mark[]> {
  readonly document: PaperDocument;
}

export function paperStudio(fonts: FontBook): PaperStudio {
  const document = paperDocument(measureBy(fonts));
  return {
    document,
    host() {
      const host = document.createElement('div');
      document.body.appendChild(host);
      return host as PaperElement & InkNode;
    },
    picture(host) {
      const element = host as object as PaperElement;
      document.body.removeChild(element);
      return marksIn(element, fonts);
    },
  };
}

/** Kept free between the words of a song, as a share of the size: the library sets neighbours edge to edge. */
const wordSpace = 0.3;

/** The library gives lyrics, and nothing else, a last line that is empty. */
const isLyric = (element: PaperElement): boolean => element.children.length > 1 && element.children.at(-1)!.textContent === '';

/** A text's box: the advance of its widest line; height by whole pixels of the face, as a browser rounds it. */
function measureBy(fonts: FontBook): Measure {
  return (element) => {
    const size = Number.parseFloat(element.getAttribute('font-size') ?? '') || 16;
    const face = faceOf(element);
    const { ascent, descent } = fonts.lines[face];
    const room = isLyric(element) ? wordSpace * size : 0;
    const widths = element.children.map((line) => fonts.width(line.textContent, face, size) + (line.textContent === '' ? 0 : room));
    const height = Math.round(ascent * size) + Math.round(descent * size) + Math.max(0, widths.length - 1) * 1.2 * size;
    return { width: Math.max(0, ...widths), height: widths.some((width) => width > 0) ? height : 0 };
  };
}
