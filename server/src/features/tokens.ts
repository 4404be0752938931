// Colours from the tree: what each piece of the text is.
import type { MusicItem } from '../abc/tree/items.ts';
import type { Line, PlacedLine } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { bareText } from './shared/locate.ts';

export const tokenTypes = ['comment', 'field', 'note', 'rest', 'bar', 'decoration', 'pin', 'text', 'slur', 'number'] as const;
export type TokenType = (typeof tokenTypes)[number];

export interface Token extends Span {
  readonly type: TokenType;
}

/** There is one question: the whole view. Tokens are in order and do not overlap. */
export const tokens: Feature<'text', null, readonly Token[]> = {
  needs: 'text',
  answer: (view) => view.tree.lines.flatMap(lineTokens),
};

function lineTokens(placed: PlacedLine): readonly Token[] {
  const { at, line } = placed;
  return cut(ofLine(line)).map(({ type, from, to }) => ({ type, from: at + from, to: at + to }));
}

/** Drops empty tokens and keeps what lies before the next. */
function cut(tokens: readonly Token[]): readonly Token[] {
  return tokens.filter((token, i) => token.to > token.from && (tokens[i + 1]?.from ?? token.to) >= token.to);
}

const whole = (line: Line, type: TokenType): readonly Token[] => [{ type, from: 0, to: bareText(line).length }];

function ofLine(line: Line): readonly Token[] {
  switch (line.kind) {
    case 'field':
      return fieldTokens(line, line.field.textSpan, 2);
    case 'directive':
      return fieldTokens(line, line.field.textSpan, 2);
    case 'music':
      return line.items.flatMap(itemTokens);
    case 'lyrics':
      return [
        ...letter,
        ...line.syllables.filter((one) => one.kind === 'text').map(({ from, to }) => ({ type: 'text' as const, from, to })),
        ...commentAfter(line),
      ];
    case 'symbols':
      return [...letter, ...line.symbols.flatMap((one) => one.marks.flatMap(itemTokens)), ...commentAfter(line)];
    case 'typeset':
      return whole(line, 'text');
    case 'field-continuation':
      return [...letter, ...textAfter(line)];
    case 'comment':
      return whole(line, 'comment');
    case 'blank':
    case 'free':
      return [];
  }
}

const letter: readonly Token[] = [{ type: 'field', from: 0, to: 2 }];

/** Where a comment begins in a line that is no music line: a per cent sign that is not escaped. */
function commentStart(line: Line): number {
  const bare = bareText(line);
  const found = /(?<!\\)%/.exec(bare.slice(2));
  return found === null ? bare.length : found.index + 2;
}

const commentAfter = (line: Line): readonly Token[] => [{ type: 'comment', from: commentStart(line), to: bareText(line).length }];
const textAfter = (line: Line): readonly Token[] => [{ type: 'text', from: 2, to: commentStart(line) }, ...commentAfter(line)];

function fieldTokens(line: Line, value: Span, head: number): readonly Token[] {
  const end = Math.min(Math.max(value.to, head), bareText(line).length);
  const comment = commentStart(line);
  return [
    { type: 'field', from: 0, to: Math.max(head, Math.min(value.from, end)) },
    { type: 'text', from: Math.max(head, value.from), to: Math.min(end, comment) },
    ...commentAfter(line),
  ];
}

const pinName = /^([0-4]|thumb|open|sul[A-G])$/;

function itemTokens(item: MusicItem): readonly Token[] {
  const token = (type: TokenType): readonly Token[] => [{ type, from: item.from, to: item.to }];
  switch (item.kind) {
    case 'note':
      return token('note');
    case 'rest':
      return token('rest');
    case 'chord':
    case 'grace':
      return item.inner.flatMap(itemTokens);
    case 'bar':
    case 'ending':
      return token('bar');
    case 'decoration':
      return token(item.form === 'named' && pinName.test(item.name) ? 'pin' : 'decoration');
    case 'quoted':
      return token('text');
    case 'tuplet':
      return token('number');
    case 'inline':
      return token('field');
    case 'macro':
      return token('decoration');
    case 'slur-open':
    case 'slur-close':
    case 'tie':
      return token('slur');
    case 'comment':
      return token('comment');
    case 'broken':
    case 'overlay':
    case 'spacer':
    case 'space':
    case 'back-quote':
    case 'line-break':
    case 'continuation':
    case 'line-end':
    case 'unknown':
      return [];
  }
}
