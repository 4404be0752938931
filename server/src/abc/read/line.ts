// One line of a book, read from what is known before it; what is known after it goes to the next.
import type { Offset } from '../../text/span.ts';
import { CR, isLetter, LF, PERCENT, skipSpaces } from '../scan/chars.ts';
import type { Field } from '../tree/fields.ts';
import type { MusicItem } from '../tree/items.ts';
import type { Line, TextError } from '../tree/tree.ts';
import { readSyllables, readSymbols } from './aligned.ts';
import { type Dialect, sameDialect } from './dialect.ts';
import { textError } from './errors.ts';
import { type FieldPlace, readDirective, readField } from './field.ts';
import { type Inclusion, inclusionOf, readIncluded } from './include.ts';
import { type LineReading, report } from './line-reading.ts';
import { readMusic } from './music.ts';

/** All that the reading of a line depends on, besides its own text. */
export interface LineEntry {
  readonly dialect: Dialect;
  readonly where: 'file-header' | 'tune-header' | 'body' | 'free';
  /** The name after `%%begin` of an open block of typeset text. */
  readonly block: string | null;
  /** The letter of the field that a `+:` line here would continue. */
  readonly continues: string | null;
}

export interface LineRead {
  readonly line: Line;
  readonly exit: LineEntry;
}

export const sameEntry = (a: LineEntry, b: LineEntry): boolean =>
  a === b || (a.where === b.where && a.block === b.block && a.continues === b.continues && sameDialect(a.dialect, b.dialect));

/** Reads `text`, a line with its line end. `joined` is the value of the `+:` lines that follow it, or null. */
export function readLine(text: string, entry: LineEntry, joined: string | null, inclusion: Inclusion | null): LineRead {
  const end = contentEnd(text);
  const line: LineReading = { text, end: commentStart(text, end), dialect: entry.dialect, errors: [] };
  if (text.startsWith('%%')) return readDirectiveLine(line, end, entry, inclusion);
  if (entry.block !== null) return { line: { kind: 'typeset', text, errors: [] }, exit: entry };
  const from = skipSpaces(text, 0, end);
  if (from === end) return readBlank(line, entry);
  if (text.charCodeAt(from) === PERCENT) return { line: { kind: 'comment', text, errors: [] }, exit: entry };
  if (entry.where === 'free') return { line: { kind: 'free', text, errors: [] }, exit: entry };
  const fieldAt = entry.where === 'body' ? 0 : from;
  if (text.startsWith('+:', fieldAt)) return readContinuation(line, entry);
  if (isField(text, fieldAt, entry)) return readFieldLine(line, fieldAt, entry, joined, inclusion);
  if (entry.where === 'file-header') return { line: { kind: 'free', text, errors: [] }, exit: { ...entry, where: 'free' } };
  return readMusicLine(line, end, entry);
}

/** Where the line's text ends, before its line end. */
export function contentEnd(text: string): Offset {
  let end = text.length;
  if (end > 0 && text.charCodeAt(end - 1) === LF) end--;
  if (end > 0 && text.charCodeAt(end - 1) === CR) end--;
  return end;
}

/** Where a comment begins, or `end`; `\%` is no comment. */
function commentStart(text: string, end: Offset): Offset {
  let at = text.indexOf('%');
  while (at > 0 && at < end && text[at - 1] === '\\') at = text.indexOf('%', at + 1);
  return at < 0 || at > end ? end : at;
}

function readBlank(line: LineReading, entry: LineEntry): LineRead {
  return { line: { kind: 'blank', text: line.text, errors: [] }, exit: { ...entry, where: 'free', continues: null } };
}

/** Letters that are fields on a line of the body (section 3). */
const BODY_FIELDS = 'IKLMmNPQRrsTUVWw';

function isField(text: string, at: Offset, entry: LineEntry): boolean {
  if (!isLetter(text.charCodeAt(at)) || text[at + 1] !== ':') return false;
  if (entry.where !== 'body' || BODY_FIELDS.includes(text[at]!)) return true;
  // A note, rest or decoration before a repeat sign is music.
  return text[at + 2] !== '|' && text[at + 2] !== ':';
}

const PLACE_OF: Readonly<Record<LineEntry['where'], FieldPlace>> = {
  'file-header': 'file',
  'tune-header': 'tune',
  body: 'body',
  free: 'body',
};

function readFieldLine(line: LineReading, at: Offset, entry: LineEntry, joined: string | null, inclusion: Inclusion | null): LineRead {
  const { text } = line;
  const letter = text[at]!;
  const inBody = entry.where === 'body';
  const field = readField(line, { letterAt: at, valueFrom: at + 2, valueTo: line.end, place: PLACE_OF[entry.where] }, joined);
  const included = includedBy(line, field, entry, inclusion);
  const where = letter === 'K' && entry.where === 'tune-header' ? 'body' : entry.where;
  const exit: LineEntry = { dialect: line.dialect, where, block: null, continues: letter };
  if (inBody && letter === 'w')
    return { line: { kind: 'lyrics', text, errors: line.errors, syllables: readSyllables(line, at + 2) }, exit };
  if (inBody && letter === 's') return { line: { kind: 'symbols', text, errors: line.errors, symbols: readSymbols(line, at + 2) }, exit };
  return { line: { kind: 'field', text, errors: line.errors, field, ...included }, exit };
}

/** A `+:` line. Under lyrics and symbol lines it aligns to notes itself; other fields have taken its text. */
function readContinuation(line: LineReading, entry: LineEntry): LineRead {
  const { text, errors } = line;
  const from = text.indexOf(':') + 1;
  if (entry.continues === null) report(line, 'text.continuation-alone', from - 2, from);
  if (entry.where === 'body' && entry.continues === 'w')
    return { line: { kind: 'lyrics', text, errors, syllables: readSyllables(line, from), continued: true }, exit: entry };
  if (entry.where === 'body' && entry.continues === 's')
    return { line: { kind: 'symbols', text, errors, symbols: readSymbols(line, from), continued: true }, exit: entry };
  return { line: { kind: 'field-continuation', text, errors }, exit: entry };
}

function readDirectiveLine(line: LineReading, end: Offset, entry: LineEntry, inclusion: Inclusion | null): LineRead {
  const { text, errors } = line;
  const name = /^%%\s*([^\s]{0,40})/.exec(text)![1]!;
  if (entry.block !== null && name !== `end${entry.block}`) return { line: { kind: 'typeset', text, errors }, exit: entry };
  if (name === '') return { line: { kind: 'comment', text, errors }, exit: entry };
  if (name.startsWith('end') && entry.block === null) report(line, 'text.block-unopened', 0, name.length + 2, name.slice(3));
  const whole: LineReading = { ...line, end };
  const field = readDirective(whole, 0, 2);
  const included = entry.where === 'free' ? {} : includedBy(whole, field, entry, inclusion);
  const dialect = entry.where === 'free' ? entry.dialect : whole.dialect;
  const block = name.startsWith('begin') ? name.slice(5) : null;
  return { line: { kind: 'directive', text, errors, field, ...included }, exit: { ...entry, dialect, block } };
}

/** From this many signs without meaning on, a line is taken for words. */
const FEWEST_OF_PROSE = 3;

const isMeaningless = ({ code }: TextError): boolean => code === 'text.symbol-undefined' || code === 'text.unknown-sign';

/** Words where music should be make one error, not one a letter. Gives whether the line is words. */
function mergeProse(line: LineReading): boolean {
  const meaningless = line.errors.filter(isMeaningless);
  if (meaningless.length < FEWEST_OF_PROSE) return false;
  const from = meaningless[0]!.span.from;
  const to = meaningless.at(-1)!.span.to;
  const others = line.errors.filter((error) => !isMeaningless(error) && (error.span.to <= from || error.span.from >= to));
  line.errors.length = 0;
  for (const error of others) line.errors.push(error);
  line.errors.push(textError('text.not-music', line.dialect.strictness, from, to));
  return true;
}

/** The fields of the file that an `abc-include` names; nothing for other fields. */
function includedBy(
  line: LineReading,
  field: Field,
  entry: LineEntry,
  inclusion: Inclusion | null,
): { readonly included?: readonly Field[] } {
  if (field.value.kind !== 'instruction' || field.value.name !== 'abc-include') return {};
  const name = field.value.rest.replace(/^"(.*)"$/, '$1');
  return { included: readIncluded(line, name, field, entry, inclusion ?? inclusionOf(() => null)) };
}

function readMusicLine(line: LineReading, end: Offset, entry: LineEntry): LineRead {
  const { text } = line;
  const items: MusicItem[] = readMusic(line, 0);
  const prose = mergeProse(line);
  // Words among the fields of a header do not end it.
  if (prose && entry.where === 'tune-header')
    return { line: { kind: 'free', text, errors: line.errors }, exit: { ...entry, continues: null } };
  if (entry.where === 'tune-header') line.errors.unshift(textError('text.key-late', line.dialect.strictness, 0, line.end));
  if (line.end < end) items.push({ kind: 'comment', from: line.end, to: end });
  if (end < text.length) items.push({ kind: 'line-end', from: end, to: text.length });
  const unchanged = line.dialect === entry.dialect && entry.where === 'body' && entry.continues === null;
  return {
    line: { kind: 'music', text, errors: line.errors, items },
    exit: unchanged ? entry : { dialect: line.dialect, where: 'body', block: null, continues: null },
  };
}
