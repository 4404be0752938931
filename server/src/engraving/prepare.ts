// The text that the library is given: one tune with the file header merged in, LF line ends, our own marks blanked.
import type { MusicItem } from '../abc/tree/items.ts';
import type { Book, Line, PlacedLine, TuneTree } from '../abc/tree/tree.ts';
import type { Offset, Span } from '../text/span.ts';
import { isOwnMark, isStringText } from './own-marks.ts';
import type { EngravingText } from './types.ts';

/** A stretch to blank; the filler keeps beams whole outside brackets, and is legal inside them. */
interface Blank {
  readonly span: Span;
  readonly filler: '`' | ' ';
}

const isBlanked = (item: MusicItem): boolean => {
  switch (item.kind) {
    case 'decoration':
      return isOwnMark(item.name);
    case 'quoted':
      return item.placement !== 'chord' && isStringText(item.text);
    case 'inline':
      return isOwnInstruction(item.field.letter, item.field.text);
    default:
      return false;
  }
};

const isOwnInstruction = (letter: string, text: string): boolean => letter === 'I' && /^bullfiddle\b/.test(text);

function blanksOf(items: readonly MusicItem[], filler: Blank['filler']): Blank[] {
  return items.flatMap((item) => {
    if (isBlanked(item)) return [{ span: item, filler }];
    return item.kind === 'chord' || item.kind === 'grace' ? blanksOf(item.inner, ' ') : [];
  });
}

function blanked(text: string, blanks: readonly Blank[]): string {
  let out = '';
  let done = 0;
  for (const { span, filler } of blanks) {
    out += text.slice(done, span.from) + filler.repeat(span.to - span.from);
    done = span.to;
  }
  return out + text.slice(done);
}

const lineEnd = /(?:\r\n|\n|\r)$/;
const withoutEnd = (text: string): string => text.replace(lineEnd, '');

/** A line as a comment of the same length; too short a line stays as it is. */
const asComment = (text: string): string => (text.length < 2 ? text : `% ${text.slice(2)}`);

/** The line without its end, as the library may see it; null where the tune ends for it. */
function preparedLine(line: Line): string | null {
  const text = withoutEnd(line.text);
  switch (line.kind) {
    case 'music':
      return blanked(text, blanksOf(line.items, '`'));
    case 'symbols':
      return asComment(text);
    case 'field':
    case 'directive':
      return isOwnInstruction(line.field.letter === '%' ? 'I' : line.field.letter, line.field.text) ? asComment(text) : text;
    case 'lyrics':
    case 'field-continuation':
    case 'comment':
      return text;
    case 'typeset':
      // An empty line would end the tune for the library.
      return text.trim() === '' ? '.' : text;
    case 'blank':
    case 'free':
      return null;
  }
}

/** Fields of the file header that hold for every tune; its titles and numbers are its own. */
const heldByHeader = (line: Line): boolean => line.kind === 'directive' || (line.kind === 'field' && !'XTKPVw'.includes(line.field.letter));

interface Maker {
  text: string;
  readonly toSource: { at: Offset; source: Offset }[];
}

function addLine(maker: Maker, text: string, source: Offset): void {
  maker.toSource.push({ at: maker.text.length, source });
  maker.text += `${text}\n`;
}

/** Lines of the tune up to the blank line that ends it. */
function tuneLines(tree: TuneTree): readonly PlacedLine[] {
  const end = tree.lines.findIndex(({ line }, i) => i >= tree.bodyStart && (line.kind === 'blank' || line.kind === 'free'));
  return end < 0 ? tree.lines : tree.lines.slice(0, end);
}

/** The text of tune `tune` of the book for the library. An empty text if there is no such tune. */
export function prepare(book: Book, tune: number): EngravingText {
  const tree = book.tunes[tune]?.tree;
  const maker: Maker = { text: '', toSource: [] };
  if (tree === undefined) return maker;
  for (const { line } of book.header.lines) {
    const text = heldByHeader(line) ? preparedLine(line) : null;
    if (text !== null) addLine(maker, text, -1);
  }
  for (const { at, line } of tuneLines(tree)) {
    const text = preparedLine(line);
    if (text !== null) addLine(maker, text, at);
  }
  return maker;
}
