// Information fields: letter, value, and what the value means.
import type { Offset, Span } from '../../text/span.ts';
import { isSpace } from '../scan/chars.ts';
import type { Field, FieldValue, VoiceProperties } from '../tree/fields.ts';
import { MOST_MACROS, withInstruction, withMacro, withSymbol } from './dialect.ts';
import { readInstruction } from './instruction.ts';
import { readKey, readProperties, tokensOf } from './key.ts';
import { type LineReading, report } from './line-reading.ts';
import { LONGEST_MACRO } from './macro.ts';
import { readPartOrder } from './part-order.ts';
import { readMeter, readTempo, readUnit } from './times.ts';

export type FieldPlace = 'file' | 'tune' | 'body' | 'inline';

export interface FieldStretch {
  readonly letterAt: Offset;
  readonly valueFrom: Offset;
  readonly valueTo: Offset;
  readonly place: FieldPlace;
}

/** Where each field may stand: f file header, t tune header, b body, i inline (section 3). */
const PLACES: Readonly<Record<string, string>> = {
  A: 'ft',
  B: 'ft',
  C: 'ft',
  D: 'ft',
  F: 'ft',
  G: 'ft',
  H: 'ft',
  I: 'ftbi',
  K: 'tbi',
  L: 'ftbi',
  M: 'ftbi',
  m: 'ftbi',
  N: 'ftbi',
  O: 'ft',
  P: 'tbi',
  Q: 'tbi',
  R: 'ftbi',
  r: 'ftbi',
  S: 'ft',
  s: 'b',
  T: 'tb',
  U: 'ftbi',
  V: 'tbi',
  W: 'tb',
  w: 'b',
  X: 't',
  Z: 'ft',
};

/** The field whose letter and value stand there. `joined` is what `+:` lines after it add, or null. */
export function readField(line: LineReading, stretch: FieldStretch, joined: string | null): Field {
  const letter = line.text[stretch.letterAt]!;
  const span = trimmed(line.text, stretch.valueFrom, stretch.valueTo);
  const own = line.text.slice(span.from, span.to);
  const text = joined === null ? own : `${own} ${joined}`.trim();
  reportPlace(line, letter, stretch);
  return {
    from: stretch.letterAt,
    to: stretch.valueTo,
    letter,
    text,
    textSpan: span,
    value: readValue(line, letter, text, span, stretch),
  };
}

/** The directive `%%name value`, or an instruction under another guise, whose text stands there. */
export function readDirective(line: LineReading, from: Offset, valueFrom: Offset): Field {
  const span = trimmed(line.text, valueFrom, line.end);
  const text = line.text.slice(span.from, span.to);
  return { from, to: line.end, letter: '%', text, textSpan: span, value: readInstructionValue(line, text, span) };
}

function trimmed(text: string, from: Offset, to: Offset): Span {
  let start = from;
  let end = to;
  while (start < end && isSpace(text.charCodeAt(start))) start++;
  while (end > start && isSpace(text.charCodeAt(end - 1))) end--;
  return { from: start, to: end };
}

function reportPlace(line: LineReading, letter: string, { letterAt, place }: FieldStretch): void {
  const places = PLACES[letter];
  if (places === undefined) report(line, 'text.field-unknown', letterAt, letterAt + 2, letter);
  else if (!places.includes(place[0]!)) report(line, 'text.field-misplaced', letterAt, letterAt + 2, letter);
}

const AS_TEXT: FieldValue = { kind: 'text' };

function readValue(line: LineReading, letter: string, text: string, span: Span, { place, letterAt }: FieldStretch): FieldValue {
  // An empty value has no place of its own: the error then stands on the field's letter.
  const at = span.to > span.from ? span : { from: letterAt, to: letterAt + 2 };
  const wrong = (problem: string): FieldValue => {
    report(line, 'text.field-value', at.from, at.to, problem);
    return AS_TEXT;
  };
  const shown = text === '' ? `An empty ${letter}:` : text;
  switch (letter) {
    case 'X':
      return readNumber(text) ?? wrong(`${shown} is no tune number. Write a whole number after X:.`);
    case 'K': {
      const { key, problem } = readKey(text);
      if (problem) wrong(problem);
      return { kind: 'key', key };
    }
    case 'M': {
      const meter = readMeter(text);
      return meter ? { kind: 'meter', meter } : wrong(`${shown} is no meter. Write one such as 4/4, 6/8, C, C| or none.`);
    }
    case 'L': {
      const unit = readUnit(text);
      return unit ? { kind: 'unit', unit } : wrong(`${shown} is no note length. Write one such as 1/8.`);
    }
    case 'Q': {
      const tempo = readTempo(text);
      return tempo ? { kind: 'tempo', tempo } : wrong(`${shown} is no tempo. Write one such as 1/4=120, with words in quotes.`);
    }
    case 'V':
      return readVoice(line, text, span, at);
    case 'P': {
      const order = place === 'tune' || place === 'file' ? readPartOrder(text) : [];
      return order
        ? { kind: 'parts', label: text, order }
        : wrong(`${shown} is no order of parts. Write letters, numbers after them, and brackets in pairs, as in (AB)2C.`);
    }
    case 'U':
      return (
        readUserSymbol(line, text) ??
        wrong('This sets no sign. Write U:T=!trill! or the like, with one letter from H to W or h to w, or ~.')
      );
    case 'm':
      return readMacro(line, text, span) ?? wrong('This is no macro. Write one as in m:~G3=G{A}G{F}G.');
    case 'I':
      return readInstructionValue(line, text, span);
    default:
      return AS_TEXT;
  }
}

function readNumber(text: string): FieldValue | null {
  if (text === '') return { kind: 'number', number: null };
  return /^\d{1,15}$/.test(text) ? { kind: 'number', number: Number(text) } : null;
}

function readInstructionValue(line: LineReading, text: string, span: Span): FieldValue {
  const value = readInstruction(text, span.from);
  line.dialect = withInstruction(line.dialect, value.name, value.rest);
  return value;
}

function readVoice(line: LineReading, text: string, span: Span, at: Span): FieldValue {
  const id = /^[^\s]*/.exec(text)![0];
  const { properties, problem } = readProperties(tokensOf(text.slice(id.length)));
  if (id === '') report(line, 'text.field-value', at.from, at.to, 'V: needs the name of a voice. Write a number or a word after it.');
  else if (problem) report(line, 'text.field-value', at.from, at.to, problem);
  return {
    kind: 'voice',
    id: id || '1',
    idSpan: { from: span.from, to: span.from + id.length },
    properties: properties as VoiceProperties,
  };
}

function readUserSymbol(line: LineReading, text: string): FieldValue | null {
  const match = /^([H-Wh-w~])\s*=\s*(.*)$/.exec(text);
  if (!match) return null;
  const meaning = match[2]!.trim();
  line.dialect = withSymbol(line.dialect, match[1]!, meaning);
  return { kind: 'user-symbol', sign: match[1]!, meaning };
}

function readMacro(line: LineReading, text: string, span: Span): FieldValue | null {
  const equals = text.indexOf('=');
  const call = text.slice(0, equals).trim();
  const body = text.slice(equals + 1).trim();
  if (equals < 1 || call === '') return null;
  if (text.length > LONGEST_MACRO || line.dialect.macros.length >= MOST_MACROS) report(line, 'text.macro-too-long', span.from, span.to);
  else line.dialect = withMacro(line.dialect, call, body);
  return { kind: 'macro', call, body };
}
