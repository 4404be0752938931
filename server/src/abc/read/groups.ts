// Bracketed groups on a music line: chords, grace notes, inline fields.
import type { Offset } from '../../text/span.ts';
import { BAR, CLOSE_BRACE, CLOSE_BRACKET, OPEN_BRACE, OPEN_BRACKET, SLASH } from '../scan/chars.ts';
import { skipLength } from '../scan/numbers.ts';
import type { MusicItem } from '../tree/items.ts';
import { readField } from './field.ts';
import { type LineReading, report } from './line-reading.ts';
import { readNoteOrMark } from './music.ts';
import { readLength, readRest } from './note.ts';

/** The chord at `at`; one without notes, or not closed, is reported and only its bracket is skipped. */
export function readChord(line: LineReading, at: Offset): MusicItem {
  const { inner, to } = readInner(line, at + 1);
  if (line.text.charCodeAt(to) !== CLOSE_BRACKET || to >= line.end) {
    report(line, 'text.chord-unclosed', at, to);
    // The notes stay notes: they are read as a chord up to where it broke off.
    return hasNote(inner)
      ? { kind: 'chord', from: at, to, inner, length: { num: 1, den: 1 } }
      : { kind: 'unknown', from: at, to: Math.max(to, at + 1) };
  }
  const end = skipLength(line.text, to + 1, line.end);
  if (!hasNote(inner)) {
    report(line, 'text.chord-empty', at, end);
    return { kind: 'unknown', from: at, to: end };
  }
  return { kind: 'chord', from: at, to: end, inner, length: readLength(line, to + 1, end) };
}

const hasNote = (items: readonly MusicItem[]): boolean => items.some((item) => item.kind === 'note');

/** The grace notes at `at`; not closed, they are reported and reach as far as they can be read. */
export function readGrace(line: LineReading, at: Offset): MusicItem {
  const slashed = line.text.charCodeAt(at + 1) === SLASH;
  const { inner, to } = readInner(line, slashed ? at + 2 : at + 1);
  const closed = line.text.charCodeAt(to) === CLOSE_BRACE && to < line.end;
  if (!closed) report(line, 'text.grace-unclosed', at, to);
  return { kind: 'grace', from: at, to: closed ? to + 1 : to, slashed, inner };
}

/** Notes and marks from `at` up to a sign that cannot stand inside a group. */
function readInner(line: LineReading, at: Offset): { readonly inner: MusicItem[]; readonly to: Offset } {
  const inner: MusicItem[] = [];
  let here = at;
  while (here < line.end && !endsGroup(line.text.charCodeAt(here))) {
    const item = readInnerItem(line, here);
    inner.push(item);
    here = item.to;
  }
  return { inner, to: Math.min(here, line.end) };
}

function readInnerItem(line: LineReading, at: Offset): MusicItem {
  const sign = line.text[at];
  if (sign === 'z' || sign === 'x') return readRest(line, at);
  const item = readNoteOrMark(line, at);
  if (item) return item;
  report(line, 'text.unknown-sign', at, at + 1);
  return { kind: 'unknown', from: at, to: at + 1 };
}

const endsGroup = (code: number): boolean =>
  code === CLOSE_BRACKET || code === CLOSE_BRACE || code === BAR || code === OPEN_BRACKET || code === OPEN_BRACE;

/** A field between brackets is closed within this many signs, or it counts as open: so a line of open brackets is read in one pass. */
const LONGEST_INLINE_FIELD = 500;

/** The field at `at`, where `[`, a letter and `:` stand; not closed, it reaches to the next bar line. */
export function readInlineField(line: LineReading, at: Offset): MusicItem {
  const { text, end } = line;
  const limit = Math.min(end, at + LONGEST_INLINE_FIELD);
  const close = indexWithin(text, CLOSE_BRACKET, at, limit);
  const closed = close < limit;
  const valueEnd = closed ? close : indexWithin(text, BAR, at, end);
  if (!closed) report(line, 'text.field-unclosed', at, valueEnd, text[at + 1]);
  // What an open field says is not judged: the missing bracket is the cause.
  const field = readField(
    closed ? line : { ...line, errors: [] },
    { letterAt: at + 1, valueFrom: at + 3, valueTo: valueEnd, place: 'inline' },
    null,
  );
  return { kind: 'inline', from: at, to: closed ? close + 1 : valueEnd, field: { ...field, from: at, to: closed ? close + 1 : valueEnd } };
}

/** The first place of the sign from `at` on, `end` if there is none before. */
function indexWithin(text: string, sign: number, at: Offset, end: Offset): Offset {
  let here = at;
  while (here < end && text.charCodeAt(here) !== sign) here++;
  return here;
}
