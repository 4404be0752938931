// Notes and rests: accidental, letter, octave marks, length.
import type { Offset } from '../../text/span.ts';
import { APOSTROPHE, CARET, COMMA, EQUALS, isNoteLetter, UNDERSCORE } from '../scan/chars.ts';
import { LARGEST, lengthOf, skipLength } from '../scan/numbers.ts';
import type { Accidental, Letter, NoteItem, RestItem, WrittenLength } from '../tree/items.ts';
import { type LineReading, report } from './line-reading.ts';

const LETTERS = 'ABCDEFG';
const MIDDLE_OCTAVE = 4;

/** Octaves that MIDI can number. */
const LOWEST_OCTAVE = -1;
const HIGHEST_OCTAVE = 9;

/** The note at `at`, where a note letter or an accidental sign stands; null if an accidental has no note. */
export function readNote(line: LineReading, at: Offset): NoteItem | null {
  const { text, end } = line;
  const letterAt = skipAccidental(text, at);
  const code = text.charCodeAt(letterAt);
  if (letterAt >= end || !isNoteLetter(code)) return null;
  const low = code < 97;
  let octave = low ? MIDDLE_OCTAVE : MIDDLE_OCTAVE + 1;
  let here = letterAt + 1;
  for (; here < end; here++) {
    const mark = text.charCodeAt(here);
    if (mark === APOSTROPHE) octave++;
    else if (mark === COMMA) octave--;
    else break;
  }
  const to = skipLength(text, here, end);
  if (octave < LOWEST_OCTAVE || octave > HIGHEST_OCTAVE) report(line, 'text.octave-too-far', at, here);
  return {
    kind: 'note',
    from: at,
    to,
    accidental: letterAt === at ? null : (text.slice(at, letterAt) as Accidental),
    letter: LETTERS[(low ? code : code - 32) - 65] as Letter,
    octave: Math.min(Math.max(octave, LOWEST_OCTAVE), HIGHEST_OCTAVE),
    length: readLength(line, here, to),
    pitchSpan: { from: at, to: here },
  };
}

/** After one of `^ ^^ _ __ =` at `at`. */
export function skipAccidental(text: string, at: Offset): Offset {
  const code = text.charCodeAt(at);
  if (code === EQUALS) return at + 1;
  if (code !== CARET && code !== UNDERSCORE) return at;
  return text.charCodeAt(at + 1) === code ? at + 2 : at + 1;
}

/** The rest at `at`, where `z`, `x`, `Z` or `X` stands. */
export function readRest(line: LineReading, at: Offset): RestItem {
  const to = skipLength(line.text, at + 1, line.end);
  return { kind: 'rest', from: at, to, sign: line.text[at] as RestItem['sign'], length: readLength(line, at + 1, to) };
}

/** The length from..to, a stretch that `skipLength` gave; a zero is reported and read as 1. */
export function readLength(line: LineReading, from: Offset, to: Offset): WrittenLength {
  const length = lengthOf(line.text, from, to);
  if (length.num > 0 && length.den > 0 && length.num < LARGEST && length.den < LARGEST) return length;
  const zero = length.num === 0 || length.den === 0;
  report(line, zero ? 'text.length-zero' : 'text.length-too-large', from, to);
  return zero ? { num: length.num || 1, den: length.den || 1 } : length;
}
