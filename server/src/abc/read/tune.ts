// A tune or the text before the first: its lines, read one after the other; lines of an older reading are taken over where nothing they depend on has changed.
import type { HeaderTree, Line, PlacedLine, TuneTree } from '../tree/tree.ts';
import type { Dialect } from './dialect.ts';
import { STANDARD_DIALECT, strictnessOf } from './dialect.ts';
import { textError } from './errors.ts';
import { type Include, inclusionOf } from './include.ts';
import { contentEnd, type LineEntry, readLine, sameEntry } from './line.ts';
import { joinedValues, splitLines } from './lines.ts';

/** How much was read and how much taken over. */
export interface ReuseCount {
  readonly tunesRead: number;
  readonly tunesReused: number;
  readonly linesRead: number;
  readonly linesReused: number;
}

/** What a line was read from, kept beside the tree so that the next reading can compare. */
interface Provenance {
  readonly lines: readonly PlacedLine[];
  readonly entries: readonly LineEntry[];
  readonly joined: readonly (string | null)[];
  readonly exit: LineEntry;
}

// A hidden property and not a WeakMap: with one entry a tree, the collector spends more time on the map than reading takes.
const PROVENANCE = Symbol('provenance');

const provenanceOf = (tree: TuneTree | HeaderTree): Provenance | null =>
  (tree as { readonly [PROVENANCE]?: Provenance })[PROVENANCE] ?? null;

function withProvenance<T extends TuneTree | HeaderTree>(tree: T, value: Provenance): T {
  return Object.defineProperty(tree, PROVENANCE, { value });
}

/** The dialect after a header: what its tunes begin with. */
export const dialectAfter = (header: HeaderTree): Dialect => provenanceOf(header)?.exit.dialect ?? STANDARD_DIALECT;

interface LinesRead extends Provenance {
  readonly linesRead: number;
}

/** What reading may be given besides the text. */
export interface ReadOptions {
  /** Where included files come from; without it `I:abc-include` is reported as not found. */
  readonly include?: Include;
}

export interface Reading<T> {
  readonly tree: T;
  readonly linesRead: number;
}

/** Reads a tune from its whole text, X: line first. `old` is an earlier reading of about the same text. */
export function readTune(text: string, dialect: Dialect, old: TuneTree | null, options: ReadOptions): Reading<TuneTree> {
  const read = readLines(splitLines(text), { dialect, where: 'tune-header', block: null, continues: null }, old, options);
  const firstBody = read.entries.findIndex((entry, i) => entry.where !== 'tune-header' || read.lines[i]!.line.kind === 'music');
  const bodyStart = firstBody < 0 ? read.lines.length : firstBody;
  const tree: TuneTree = { kind: 'tune', lines: read.lines, length: text.length, bodyStart, strictness: read.exit.dialect.strictness };
  return { tree: withProvenance(tree, read), linesRead: read.linesRead };
}

/** Reads what stands before the first tune. */
export function readHeader(text: string, old: HeaderTree | null, options: ReadOptions): Reading<HeaderTree> {
  const bom = text.startsWith('\ufeff') ? 1 : 0;
  const version = /^%abc-(\d+\.\d+)/.exec(text.slice(bom, bom + 20))?.[1] ?? null;
  const dialect: Dialect = { ...STANDARD_DIALECT, strictness: strictnessOf(version) };
  const pieces = splitLines(text.slice(bom));
  // A byte-order mark is a line of its own, so that no place in a line counts it.
  const read = readLines(pieces, { dialect, where: 'file-header', block: null, continues: null }, old, options, bom === 1 ? '\ufeff' : '');
  const tree: HeaderTree = { kind: 'header', lines: read.lines, length: text.length, version };
  return { tree: withProvenance(tree, read), linesRead: read.linesRead };
}

function readLines(
  pieces: readonly string[],
  start: LineEntry,
  old: TuneTree | HeaderTree | null,
  options: ReadOptions,
  mark = '',
): LinesRead {
  const joined = joinedValues(pieces);
  const before = old && provenanceOf(old);
  const lines: PlacedLine[] = mark === '' ? [] : [{ at: 0, line: { kind: 'comment', text: mark, errors: [] } }];
  const entries: LineEntry[] = mark === '' ? [] : [start];
  const shift = old ? old.lines.length - pieces.length - lines.length : 0;
  let entry = start;
  let at = mark.length;
  let linesRead = 0;
  pieces.forEach((text, i) => {
    const index = lines.length;
    const kept = before && (reusable(before, index, text, entry, joined[i]!) ?? reusable(before, index + shift, text, entry, joined[i]!));
    const read = kept ?? readLine(text, entry, joined[i]!, options.include ? inclusionOf(options.include) : null);
    if (!kept) linesRead++;
    lines.push({ at, line: read.line });
    entries.push(entry);
    entry = read.exit;
    at += text.length;
  });
  return { lines, entries, joined: mark === '' ? joined : [null, ...joined], exit: entry, linesRead };
}

function reusable(
  { lines, entries, joined, exit }: Provenance,
  i: number,
  text: string,
  entry: LineEntry,
  join: string | null,
): { line: Line; exit: LineEntry } | null {
  const line = lines[i]?.line;
  if (!line || line.text !== text || joined[i] !== join || includes(line) || !sameEntry(entries[i]!, entry)) return null;
  return { line, exit: entries[i + 1] ?? exit };
}

/** A line that includes a file depends on more than its text: it is always read again. */
const includes = (line: Line): boolean =>
  (line.kind === 'field' || line.kind === 'directive') &&
  line.field.value.kind === 'instruction' &&
  line.field.value.name === 'abc-include';

/** A tune that another follows: that its music goes on up to the other's `X:` line is said on its last line. */
export function beforeAnother(tune: TuneTree): TuneTree {
  const { exit } = provenanceOf(tune)!;
  if (exit.where !== 'body' || exit.block !== null) return tune;
  const { at, line } = tune.lines.at(-1)!;
  const end = contentEnd(line.text);
  const error = textError('text.tune-unended', tune.strictness, end - 1, end);
  const lines = tune.lines.with(-1, { at, line: { ...line, errors: [...line.errors, error] } });
  return withProvenance({ ...tune, lines }, provenanceOf(tune)!);
}

/** The header of a text without any tune: its free text, or an empty text, says so. */
export function withoutTunes(header: HeaderTree): HeaderTree {
  const lines = header.lines.length > 0 ? header.lines : [{ at: 0, line: { kind: 'blank', text: '', errors: [] } } as const];
  const free = lines.findIndex(({ line }) => line.kind === 'free');
  if (free < 0 && lines.some(({ line }) => line.kind === 'field' || line.kind === 'directive')) return header;
  const at = Math.max(free, 0);
  const { line } = lines[at]!;
  const error = textError('text.no-tune', dialectAfter(header).strictness, 0, contentEnd(line.text));
  const told = lines.with(at, { at: lines[at]!.at, line: { ...line, errors: [...line.errors, error] } });
  const made: HeaderTree = { ...header, lines: told };
  return withProvenance(made, provenanceOf(header)!);
}
