// A line of music: its text cut into items that tile it.
import type { Offset } from '../../text/span.ts';
import * as c from '../scan/chars.ts';
import { skipDigits } from '../scan/numbers.ts';
import type { MarkItem, MusicItem } from '../tree/items.ts';
import { readBar, readEndingNumbers } from './bar.ts';
import { readDecoration, readQuoted, readSymbolLetter } from './decoration.ts';
import { readChord, readGrace, readInlineField } from './groups.ts';
import { type LineReading, report } from './line-reading.ts';
import { macroCallAt } from './macro.ts';
import { readNote, readRest, skipAccidental } from './note.ts';
import { readTuplet } from './tuplet.ts';

/** The items of the content from `from` to the line's `end`. Fields in the line change its dialect for what follows. */
export function readMusic(line: LineReading, from: Offset): MusicItem[] {
  const items: MusicItem[] = [];
  let at = from;
  while (at < line.end) {
    const item = readItem(line, at, items);
    items.push(item);
    at = item.to;
  }
  return items;
}

function readItem(line: LineReading, at: Offset, before: readonly MusicItem[]): MusicItem {
  if (line.dialect.macros.length > 0) {
    const expanded = readMacro(line, at);
    if (expanded) return expanded;
  }
  return readOne(line, at) ?? readLate(line, at, before) ?? unknown(line, at, at + 1);
}

/** What can stand both on a line and inside brackets: null for anything else. */
export function readNoteOrMark(line: LineReading, at: Offset): MusicItem | null {
  const { text } = line;
  const code = text.charCodeAt(at);
  if (c.isNoteLetter(code)) return readNote(line, at);
  switch (code) {
    case c.SPACE:
    case c.TAB:
    case 0xa0:
      return mark('space', at, c.skipSpaces(text, at, line.end));
    case c.CARET:
    case c.UNDERSCORE:
    case c.EQUALS:
      return readNote(line, at) ?? lonelyAccidental(line, at);
    case c.QUOTE:
      return readQuoted(line, at) ?? unclosedQuote(line, at);
    case c.BANG:
    case c.PLUS: {
      const read = readDecoration(line, at);
      return read === 'line-break' ? mark('line-break', at, at + 1) : (read ?? mark('unknown', at, at + 1));
    }
    case c.HYPHEN:
      return { kind: 'tie', from: at, to: at + 1, dotted: false };
    case c.DOT:
      return readDot(line, at);
    case c.OPEN_PAREN:
      return { kind: 'slur-open', from: at, to: at + 1, dotted: false };
    case c.CLOSE_PAREN:
      return mark('slur-close', at, at + 1);
    case c.BACK_QUOTE:
      return mark('back-quote', at, at + 1);
    case c.GREATER:
    case c.LESS:
      return readBroken(line, at);
    default:
      return c.isSymbolLetter(code) ? (readSymbolLetter(line, at) ?? mark('unknown', at, at + 1)) : null;
  }
}

function readOne(line: LineReading, at: Offset): MusicItem | null {
  const { text } = line;
  const next = text.charCodeAt(at + 1);
  switch (text.charCodeAt(at)) {
    case c.BAR:
    case c.COLON:
      return readBar(line, at);
    case c.DOT:
      return next === c.BAR ? readBar(line, at) : readNoteOrMark(line, at);
    case c.OPEN_BRACKET:
      return readBracket(line, at, next);
    case c.OPEN_PAREN:
      return c.isDigit(next) && at + 1 < line.end ? readTuplet(line, at) : readNoteOrMark(line, at);
    case c.OPEN_BRACE:
      return readGrace(line, at);
    case c.AMPERSAND:
      return mark('overlay', at, at + 1);
    case c.BACKSLASH:
      return readBackslash(line, at);
    case c.DOLLAR:
      return line.dialect.lineBreaks.includes('$') ? mark('line-break', at, at + 1) : null;
    case 0x79: // y
      return mark('spacer', at, skipDigits(text, at + 1, line.end));
    case 0x7a: // z
    case 0x78: // x
    case 0x5a: // Z
    case 0x58: // X
      return readRest(line, at);
    default:
      return readNoteOrMark(line, at);
  }
}

function readBracket(line: LineReading, at: Offset, next: number): MusicItem | null {
  const { text } = line;
  const ending = readEndingNumbers(line, at);
  if (ending) return { kind: 'ending', ...ending };
  if (c.isLetter(next) && text.charCodeAt(at + 2) === c.COLON && at + 2 < line.end) {
    // `[C:` opens a field, but `[C:|]` is none: a field's value never begins with a bar.
    if (text.charCodeAt(at + 3) !== c.BAR) return readInlineField(line, at);
  }
  return readBar(line, at) ?? readChord(line, at);
}

/** Ending numbers after a bar line and space: an old slip that is understood and reported. */
function readLate(line: LineReading, at: Offset, before: readonly MusicItem[]): MusicItem | null {
  if (!c.isDigit(line.text.charCodeAt(at))) return null;
  if (before.at(-1)?.kind !== 'space' || before.at(-2)?.kind !== 'bar') return null;
  const ending = readEndingNumbers(line, at)!;
  report(line, 'text.ending-spaced', at, ending.to);
  return { kind: 'ending', ...ending };
}

function readMacro(line: LineReading, at: Offset): MusicItem | null {
  const call = macroCallAt(line.dialect.macros, line.text, at, line.end);
  if (!call) return null;
  const inner: LineReading = { text: call.text, end: call.text.length, dialect: { ...line.dialect, macros: [] }, errors: [] };
  const expansion = readMusic(inner, 0).map((item) => placedAt(item, at, call.to));
  for (const found of inner.errors) line.errors.push({ ...found, span: { from: at, to: call.to } });
  return { kind: 'macro', from: at, to: call.to, text: call.text, expansion };
}

/** The item with every span of it on the call. */
function placedAt(item: MusicItem, from: Offset, to: Offset): MusicItem {
  if (item.kind === 'note') return { ...item, from, to, pitchSpan: { from, to } };
  if (item.kind === 'chord' || item.kind === 'grace')
    return { ...item, from, to, inner: item.inner.map((inner) => placedAt(inner, from, to)) };
  if (item.kind === 'bar') return { ...item, from, to, ending: item.ending && { ...item.ending, from, to } };
  return { ...item, from, to };
}

type PlainMark = 'slur-close' | 'overlay' | 'spacer' | 'space' | 'back-quote' | 'line-break' | 'continuation' | 'unknown';

const mark = (kind: PlainMark, from: Offset, to: Offset): MarkItem => ({ kind, from, to });

function readDot(line: LineReading, at: Offset): MusicItem {
  const next = at + 1 < line.end ? line.text.charCodeAt(at + 1) : 0;
  if (next === c.HYPHEN) return { kind: 'tie', from: at, to: at + 2, dotted: true };
  if (next === c.OPEN_PAREN && !c.isDigit(line.text.charCodeAt(at + 2))) return { kind: 'slur-open', from: at, to: at + 2, dotted: true };
  return { kind: 'decoration', from: at, to: at + 1, name: 'staccato', form: 'shorthand' };
}

const DEEPEST_BROKEN = 3;

function readBroken(line: LineReading, at: Offset): MusicItem {
  const { text } = line;
  const sign = text.charCodeAt(at);
  let to = at + 1;
  while (to < line.end && text.charCodeAt(to) === sign) to++;
  if (to - at > DEEPEST_BROKEN) report(line, 'text.broken-too-deep', at, to);
  return { kind: 'broken', from: at, to, toward: sign === c.GREATER ? 'right' : 'left', degree: Math.min(to - at, DEEPEST_BROKEN) };
}

function readBackslash(line: LineReading, at: Offset): MusicItem {
  const to = c.skipSpaces(line.text, at + 1, line.end);
  if (to >= line.end) return mark('continuation', at, line.end);
  report(line, 'text.backslash-inside', at, at + 1);
  return mark('unknown', at, at + 1);
}

function lonelyAccidental(line: LineReading, at: Offset): MusicItem {
  const to = Math.min(skipAccidental(line.text, at), line.end);
  report(line, 'text.accidental-without-note', at, to);
  return mark('unknown', at, to);
}

/** An open quote hides what follows only up to the next bar line. */
function unclosedQuote(line: LineReading, at: Offset): MusicItem {
  const bar = line.text.indexOf('|', at);
  const to = bar < 0 || bar > line.end ? line.end : bar;
  report(line, 'text.quote-unclosed', at, to);
  return mark('unknown', at, to);
}

/** Signs that mean nothing; a run of them is one item and one error. */
function unknown(line: LineReading, at: Offset, least: Offset): MusicItem {
  const { text } = line;
  const code = text.charCodeAt(at);
  if (isReserved(code)) {
    report(line, 'text.reserved-sign', at, least);
    return mark('unknown', at, least);
  }
  if (code === c.CLOSE_BRACKET || code === c.CLOSE_BRACE) {
    report(line, 'text.sign-unopened', at, least);
    return mark('unknown', at, least);
  }
  let to = least;
  while (to < line.end && isMeaningless(text.charCodeAt(to))) to++;
  report(line, 'text.unknown-sign', at, to);
  return mark('unknown', at, to);
}

/** `# * ; ? @` (8.1). */
const isReserved = (code: number): boolean => code === 35 || code === c.STAR || code === 59 || code === 63 || code === 64;

const isMeaningless = (code: number): boolean => code > 126 || c.isDigit(code) || (code >= 0x69 && code <= 0x6b) || code < 32;
