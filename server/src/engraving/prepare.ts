// The text that the library is given: one tune with the file header merged in, LF line ends, our own marks blanked, macros written out, lines broken where the text says.
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

/** Ours, and the one that the library misreads: its breaks are carried out here. */
const isOwnInstruction = (letter: string, text: string): boolean => letter === 'I' && /^(bullfiddle|linebreak)\b/.test(text);

function blanksOf(items: readonly MusicItem[], filler: Blank['filler']): Blank[] {
  return items.flatMap((item) => {
    if (isBlanked(item)) return [{ span: item, filler }];
    return item.kind === 'chord' || item.kind === 'grace' ? blanksOf(item.inner, ' ') : [];
  });
}

/** A piece of a prepared line: text that stands at `source` of the line, or that a macro called at `source` stands for. */
interface Piece {
  readonly text: string;
  readonly source: Offset;
  readonly kind: 'own' | 'called';
}

function blanked(text: string, blanks: readonly Blank[], from: Offset, to: Offset): string {
  let out = '';
  let done = from;
  for (const { span, filler } of blanks) {
    if (span.from < from || span.to > to) continue;
    out += text.slice(done, span.from) + filler.repeat(span.to - span.from);
    done = span.to;
  }
  return out + text.slice(done, to);
}

/** Our own marks in a macro's body, which has no items of its own places. */
const calledText = (text: string): string =>
  text.replace(/!([^!\s]*)!/g, (mark, name: string) => (isOwnMark(name) ? '`'.repeat(mark.length) : mark));

type MusicLine = Extract<Line, { kind: 'music' }>;

/** What is no music: a line of nothing else would end the tune for the library. */
const isAir = ({ kind }: MusicItem): boolean => kind === 'space' || kind === 'comment' || kind === 'line-end' || kind === 'line-break';

/** Score line breaks between music; those at either end of the line say nothing beyond the line's own end. */
const innerBreaks = ({ items, text }: MusicLine, signs: string): MusicItem[] => {
  const first = items.findIndex((item) => !isAir(item));
  const last = items.findLastIndex((item) => !isAir(item));
  return items.filter((item, i) => item.kind === 'line-break' && signs.includes(text[item.from]!) && first < i && i < last);
};

/** What the line after a music line is to it. Words belong to the whole line, which then is not broken inside. */
interface Around {
  readonly next: Line['kind'] | null;
  readonly breaking: Breaking;
}

/** What breaks the score (`I:linebreak`, 11.2 of the standard). */
interface Breaking {
  readonly lineEnds: 'break' | 'run on';
  /** A `!` that was not declared is more often a decoration half typed. */
  readonly signs: '$' | '$!';
}

const usualBreaking: Breaking = { lineEnds: 'break', signs: '$' };

/** A line that runs on into the next ends in a backslash, without its comment. */
const runsOn = ({ items }: MusicLine, { next, breaking }: Around): boolean =>
  breaking.lineEnds === 'run on' &&
  next === 'music' &&
  items.findLast((item) => item.kind !== 'space' && item.kind !== 'comment' && item.kind !== 'line-end')?.kind !== 'line-break';

function musicPieces(line: MusicLine, around: Around): Piece[] {
  const { items } = line;
  const text = withoutEnd(line.text);
  const comment = items.find((item) => item.kind === 'comment');
  const onward = runsOn(line, around) && !items.some((item) => item.kind === 'continuation');
  const end = onward && comment !== undefined ? comment.from : text.length;
  const broken = around.next === 'lyrics' ? [] : innerBreaks(line, around.breaking.signs);
  const blanks = blanksOf(items, '`');
  const pieces: Piece[] = [];
  let done = 0;
  const own = (to: Offset, tail: string): void => {
    pieces.push({ text: blanked(text, blanks, done, to) + tail, source: done, kind: 'own' });
  };
  for (const item of items) {
    if (item.kind === 'macro') {
      own(item.from, '');
      pieces.push({ text: calledText(item.text), source: item.from, kind: 'called' });
      done = item.to;
    } else if (item.kind === 'line-break') {
      // A sign for a sign: places hold.
      own(item.from, broken.includes(item) ? '\n' : '`');
      done = item.to;
    }
  }
  own(end, onward ? '\\' : '');
  return pieces;
}

const lineEnd = /(?:\r\n|\n|\r)$/;
const withoutEnd = (text: string): string => text.replace(lineEnd, '');

/** A line as a comment of the same length; too short a line stays as it is. */
const asComment = (text: string): string => (text.length < 2 ? text : `% ${text.slice(2)}`);

const whole = (text: string): Piece[] => [{ text, source: 0, kind: 'own' }];

const isOwnField = (letter: string, text: string): boolean => letter === 'm' || isOwnInstruction(letter === '%' ? 'I' : letter, text);

/** The line without its end, as the library may see it; null where the tune ends for it. */
function preparedLine(line: Line, around: Around): readonly Piece[] | null {
  const text = withoutEnd(line.text);
  switch (line.kind) {
    case 'music':
      return musicPieces(line, around);
    case 'symbols':
      return whole(asComment(text));
    case 'field':
    case 'directive':
      return whole(isOwnField(line.field.letter, line.field.text) ? asComment(text) : text);
    case 'lyrics':
    case 'field-continuation':
    case 'comment':
      return whole(text);
    case 'typeset':
      // An empty line would end the tune for the library.
      return whole(text.trim() === '' ? '.' : text);
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

function addLine(maker: Maker, pieces: readonly Piece[], source: Offset): void {
  for (const piece of pieces) {
    const at = source < 0 ? -1 : source + piece.source;
    // All that a macro stands for has the place of its call.
    const places = piece.kind === 'called' ? piece.text.length : 1;
    for (let i = 0; i < places; i++) maker.toSource.push({ at: maker.text.length + i, source: at });
    maker.text += piece.text;
  }
  maker.text += '\n';
}

/** What breaks the score after this line. */
function breakingAfter(line: Line, before: Breaking): Breaking {
  if (line.kind !== 'field' && line.kind !== 'directive') return before;
  const { letter, text } = line.field;
  const signs = letter === 'I' || letter === '%' ? /^linebreak\s+(.*)/.exec(text)?.[1] : undefined;
  if (signs === undefined) return before;
  return { lineEnds: /<EOL>/i.test(signs) ? 'break' : 'run on', signs: signs.includes('!') ? '$!' : '$' };
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
  let breaking = usualBreaking;
  for (const { line } of book.header.lines) {
    breaking = breakingAfter(line, breaking);
    const pieces = heldByHeader(line) ? preparedLine(line, { next: null, breaking }) : null;
    if (pieces !== null) addLine(maker, pieces, -1);
  }
  const lines = tuneLines(tree);
  lines.forEach(({ at, line }, i) => {
    breaking = breakingAfter(line, breaking);
    const next = lines[i + 1]?.line.kind ?? null;
    const pieces = preparedLine(line, { next, breaking });
    if (pieces !== null) addLine(maker, pieces, at);
  });
  return maker;
}
