// Decorations, their one-letter signs, and text in quotes.
import type { Offset } from '../../text/span.ts';
import { BANG, BAR, CARET, CLOSE_BRACKET, COLON, isSpace, OPEN_BRACKET, PLUS, QUOTE } from '../scan/chars.ts';
import type { DecorationItem, QuotedItem } from '../tree/items.ts';
import { type LineReading, report } from './line-reading.ts';
import { plainText } from './plain-text.ts';

/** The named decorations of section 4.14. */
export const decorationNames: ReadonlySet<string> = new Set(
  (
    'trill trill( trill) lowermordent uppermordent mordent pralltriller roll turn turnx invertedturn invertedturnx arpeggio > accent emphasis ' +
    'fermata invertedfermata tenuto 0 1 2 3 4 5 + plus snap slide wedge upbow downbow open thumb breath pppp ppp pp p mp mf f ff fff ffff sfz ' +
    'crescendo( <( crescendo) <) diminuendo( >( diminuendo) >) segno coda D.S. D.C. dacoda dacapo fine shortphrase mediumphrase longphrase'
  ).split(' '),
);

const NAMES = [...decorationNames];

/** `!sulG!` and its kin name the string to play on: not in the standard, but ours to know. */
const isStringName = (name: string): boolean => /^sul[A-G]$/.test(name);

/** What `readDecoration` met: a decoration, a staff line break, or nothing that can be read. */
export type DecorationReading = DecorationItem | 'line-break' | null;

/** Reads at a `!` or `+`. The sign that the dialect gives to line breaks breaks lines; a lone `!` does so in loose reading (12.2). */
export function readDecoration(line: LineReading, at: Offset): DecorationReading {
  const { text, dialect } = line;
  const sign = text[at]!;
  if (dialect.lineBreaks.includes(sign)) return 'line-break';
  const close = closeOfDecoration(text, at, line.end);
  if (dialect.decorationSign !== null && dialect.decorationSign !== sign) {
    report(line, 'text.decoration-other-sign', at, close < 0 ? at + 1 : close + 1);
    return close < 0 ? null : { kind: 'decoration', from: at, to: close + 1, name: '', form: 'named' };
  }
  if (close < 0) {
    const half = halfName(text, at + 1, line.end);
    if (sign === '!' && half > at + 1) {
      report(line, 'text.decoration-unclosed', at, half);
      return { kind: 'decoration', from: at, to: half, name: '', form: 'named' };
    }
    if (sign === '!' && dialect.strictness === 'loose') return 'line-break';
    report(line, sign === '!' ? 'text.decoration-unclosed' : 'text.unknown-sign', at, at + 1);
    return null;
  }
  const name = text.slice(at + 1, close);
  if (sign === '+' && dialect.decorationSign === null) report(line, 'text.decoration-old-sign', at, close + 1, name);
  else if (!decorationNames.has(name) && !isStringName(name)) report(line, 'text.decoration-unknown', at, close + 1, name);
  return { kind: 'decoration', from: at, to: close + 1, name, form: 'named' };
}

/** Where a name that is still being typed ends: the beginning of a decoration's name that cannot be notes; `from` if there is none. */
function halfName(text: string, from: Offset, end: Offset): Offset {
  const word = /^[A-Za-z0-9.]{1,16}/.exec(text.slice(from, Math.min(end, from + 16)))?.[0] ?? '';
  if (!/[^A-Ga-gx-zX-Z]/.test(word)) return from;
  const known = 'sulG'.startsWith(word) || NAMES.some((name) => name.startsWith(word));
  return known ? from + word.length : from;
}

/** The sign that closes the decoration opened at `at`, met before a bar line, bracket, space or the end; -1 if none. */
function closeOfDecoration(text: string, at: Offset, end: Offset): Offset {
  const sign = text.charCodeAt(at);
  // `!+!` and the old `+++` name the sign itself.
  if (text.charCodeAt(at + 1) === PLUS && text.charCodeAt(at + 2) === sign && at + 2 < end) return at + 2;
  for (let here = at + 1; here < end; here++) {
    const code = text.charCodeAt(here);
    if (code === sign) return here > at + 1 ? here : -1;
    if (code === BAR || code === OPEN_BRACKET || code === CLOSE_BRACKET || code === COLON || isSpace(code)) return -1;
    if (code === BANG || code === PLUS || code === QUOTE) return -1;
  }
  return -1;
}

/** The meaning of the one-letter sign at `at`; null, and reported, if it has none. */
export function readSymbolLetter(line: LineReading, at: Offset): DecorationItem | QuotedItem | null {
  const sign = line.text[at]!;
  const meaning = line.dialect.symbols.get(sign);
  if (!meaning) {
    report(line, 'text.symbol-undefined', at, at + 1);
    return null;
  }
  if (meaning.kind === 'quoted') return quotedItem(meaning.quoted, at, at + 1);
  return { kind: 'decoration', from: at, to: at + 1, name: meaning.name, form: 'shorthand' };
}

/** The text in quotes at `at`; null if it is not closed on its line. */
export function readQuoted(line: LineReading, at: Offset): QuotedItem | null {
  const close = line.text.indexOf('"', at + 1);
  return close < 0 || close >= line.end ? null : quotedItem(line.text.slice(at + 1, close), at, close + 1);
}

const PLACEMENTS: Readonly<Record<string, QuotedItem['placement']>> = { '^': 'above', _: 'below', '<': 'left', '>': 'right', '@': 'free' };

function quotedItem(inside: string, from: Offset, to: Offset): QuotedItem {
  const code = inside.charCodeAt(0);
  const placement = code === CARET ? 'above' : (PLACEMENTS[inside[0] ?? ''] ?? 'chord');
  return { kind: 'quoted', from, to, placement, text: plainText(placement === 'chord' ? inside : inside.slice(1)) };
}
