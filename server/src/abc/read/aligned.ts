// Lines that align to the notes above them: lyrics (`w:`) and symbol lines (`s:`).
import type { Offset } from '../../text/span.ts';
import { BACKSLASH, BAR, HYPHEN, isSpace, STAR, UNDERSCORE } from '../scan/chars.ts';
import type { Syllable, SymbolToken } from '../tree/tree.ts';
import { readDecoration, readQuoted, readSymbolLetter } from './decoration.ts';
import { type LineReading, report } from './line-reading.ts';
import { plainText } from './plain-text.ts';

/** The syllables from `from` to the line's end (5.1). */
export function readSyllables(line: LineReading, from: Offset): readonly Syllable[] {
  const { text, end } = line;
  const found: Syllable[] = [];
  let at = from;
  while (at < end) {
    const code = text.charCodeAt(at);
    if (isSpace(code) || (code === BACKSLASH && at === end - 1)) {
      at++;
      continue;
    }
    const syllable = readSyllable(text, at, end);
    found.push(syllable);
    at = syllable.to;
  }
  return found;
}

function readSyllable(text: string, at: Offset, end: Offset): Syllable {
  const code = text.charCodeAt(at);
  const sign = (kind: Syllable['kind']): Syllable => ({ kind, from: at, to: at + 1, text: '', hyphen: code === HYPHEN });
  if (code === BAR) return sign('bar');
  if (code === STAR) return sign('skip');
  // A hyphen with no letters before it takes a note of its own, as a hold does.
  if (code === UNDERSCORE || code === HYPHEN) return sign('hold');
  let to = at;
  while (to < end && !endsSyllable(text.charCodeAt(to)))
    to += text.charCodeAt(to) === BACKSLASH && text.charCodeAt(to + 1) === HYPHEN ? 2 : 1;
  to = Math.min(to, end);
  const words = plainText(text.slice(at, to).replaceAll('\\-', '-').replaceAll('~', ' '));
  const hyphen = to < end && text.charCodeAt(to) === HYPHEN;
  return { kind: 'text', from: at, to: hyphen ? to + 1 : to, text: words, hyphen };
}

const endsSyllable = (code: number): boolean => isSpace(code) || code === HYPHEN || code === UNDERSCORE || code === STAR || code === BAR;

/** The symbols from `from` to the line's end (4.15); those that touch stand for one note. */
export function readSymbols(line: LineReading, from: Offset): readonly SymbolToken[] {
  const found: SymbolToken[] = [];
  let at = from;
  while (at < line.end) {
    const code = line.text.charCodeAt(at);
    if (isSpace(code)) at++;
    else if (code === STAR || code === BAR) {
      found.push({ kind: code === STAR ? 'skip' : 'bar', from: at, to: ++at, marks: [] });
    } else {
      const token = readMarks(line, at);
      if (token.marks.length > 0) found.push(token);
      at = token.to;
    }
  }
  return found;
}

function readMarks(line: LineReading, from: Offset): SymbolToken {
  const marks: SymbolToken['marks'][number][] = [];
  let at = from;
  while (at < line.end) {
    const code = line.text.charCodeAt(at);
    if (isSpace(code) || code === STAR || code === BAR) break;
    const mark = readMark(line, at);
    if (mark) marks.push(mark);
    at = mark?.to ?? at + 1;
  }
  return { kind: 'marks', from, to: at, marks };
}

function readMark(line: LineReading, at: Offset): SymbolToken['marks'][number] | null {
  const sign = line.text[at]!;
  if (sign === '"') {
    const quoted = readQuoted(line, at);
    if (!quoted) report(line, 'text.quote-unclosed', at, line.end);
    return quoted;
  }
  if (sign === '!' || sign === '+') {
    const read = readDecoration(line, at);
    return typeof read === 'string' ? null : read;
  }
  if (sign === '.') return { kind: 'decoration', from: at, to: at + 1, name: 'staccato', form: 'shorthand' };
  if (/[H-Wh-w~]/.test(sign)) return readSymbolLetter(line, at);
  report(line, 'text.unknown-sign', at, at + 1);
  return null;
}
