// The spaces of one music line.
import type { MusicItem } from '../../abc/tree/items.ts';
import type { PlacedLine } from '../../abc/tree/tree.ts';

/** The line with canonical spaces and without its line end; null where it holds something that is not music and is better left alone. */
export function spacedLine({ at, line }: PlacedLine, groups: ReadonlyMap<number, string>): string | null {
  if (line.kind !== 'music' || line.items.some((item) => item.kind === 'unknown' || item.kind === 'macro')) return null;
  const pieces = piecesOf(line.items, line.text);
  let out = '';
  let last: Piece | null = null;
  for (const piece of pieces) {
    if (last !== null) out += spaceBetween(last, piece, (item) => groups.get(at + item.from));
    out += piece.text;
    last = piece;
  }
  return out.replace(/[ \t]+$/, '');
}

/** What no space ever goes into: a note with its marks before and its joins behind, a bar line, a field. */
interface Piece {
  readonly text: string;
  readonly kind: 'event' | 'bar' | 'other';
  readonly event: MusicItem | null;
  /** White space stood before it. */
  readonly spaced: boolean;
  /** Its last item joins it to the next event: no space between. */
  readonly joins: boolean;
  readonly first: MusicItem;
}

const leading = new Set<MusicItem['kind']>(['decoration', 'quoted', 'grace', 'slur-open', 'tuplet']);
const trailing = new Set<MusicItem['kind']>(['slur-close', 'tie', 'broken', 'back-quote']);
const events = new Set<MusicItem['kind']>(['note', 'rest', 'chord']);

/** Marks waiting for their note, and whether white space came last. */
interface Reading {
  readonly pieces: Piece[];
  open: Pick<Piece, 'text' | 'spaced' | 'first'> | null;
  space: boolean;
}

function piecesOf(items: readonly MusicItem[], text: string): readonly Piece[] {
  const reading: Reading = { pieces: [], open: null, space: false };
  for (const item of items) take(reading, item, text.slice(item.from, item.to));
  if (reading.open !== null) reading.pieces.push({ ...reading.open, kind: 'other', event: null, joins: false });
  return reading.pieces;
}

function take(reading: Reading, item: MusicItem, own: string): void {
  if (item.kind === 'line-end') return;
  if (item.kind === 'space') {
    reading.space = true;
    return;
  }
  const before = reading.pieces.at(-1);
  const start = reading.open ?? { text: '', spaced: reading.space, first: item };
  if (leading.has(item.kind)) reading.open = { ...start, text: start.text + own };
  else if (events.has(item.kind)) push(reading, { ...start, text: start.text + own, kind: 'event', event: item, joins: false });
  else if (reading.open === null && before !== undefined && follows(before, item, reading.space))
    reading.pieces[reading.pieces.length - 1] = { ...before, text: before.text + own, joins: before.joins || item.kind === 'broken' };
  else push(reading, { ...start, text: start.text + own, kind: item.kind === 'bar' ? 'bar' : 'other', event: null, joins: false });
  reading.space = false;
}

function push(reading: Reading, piece: Piece): void {
  reading.pieces.push(piece);
  reading.open = null;
}

/** Whether an item stays at the note before it. */
const follows = (before: Piece, item: MusicItem, space: boolean): boolean =>
  trailing.has(item.kind) && before.kind === 'event' && (!space || item.kind === 'broken');

function spaceBetween(before: Piece, after: Piece, groupOf: (item: MusicItem) => string | undefined): string {
  // An unclosed chord may end in white space of its own.
  if (before.joins || /[ \t]$/.test(before.text)) return '';
  if (before.kind === 'event' && after.kind === 'event') return spaceOfEvents(before, after, groupOf);
  const atBar = before.kind === 'bar' || after.kind === 'bar';
  if (atBar && before.kind !== 'other' && after.kind !== 'other') return mayClose(before, after) ? '' : ' ';
  if (before.first.kind === 'ending') return ' ';
  return after.spaced ? ' ' : '';
}

function spaceOfEvents(before: Piece, after: Piece, groupOf: (item: MusicItem) => string | undefined): string {
  const groups = [before.event, after.event].map((item) => (item === null ? undefined : groupOf(item)));
  if (groups[0] === undefined || groups[1] === undefined) return after.spaced ? ' ' : '';
  return groups[0] === groups[1] ? '' : ' ';
}

/** An ending number stays apart from the note after it, and brackets and digits from a bar line they would become part of. */
function mayClose(before: Piece, after: Piece): boolean {
  if (before.first.kind === 'bar' && before.kind === 'bar') return before.first.ending === null && !/^[[\]|:\d]/.test(after.text);
  return true;
}
