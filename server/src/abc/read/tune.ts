// A tune or the text before the first: its lines, read one after the other; lines of an older reading are taken over where nothing they depend on has changed.
import { lineStarts } from '../../text/line-index.ts';
import type { HeaderTree, Line, PlacedLine, TuneTree } from '../tree/tree.ts';
import type { Dialect } from './dialect.ts';
import { STANDARD_DIALECT, strictnessOf } from './dialect.ts';
import { contentEnd, type LineEntry, readLine, sameEntry } from './line.ts';

/** How much was read and how much taken over. */
export interface ReuseCount {
  readonly tunesRead: number;
  readonly tunesReused: number;
  readonly linesRead: number;
  readonly linesReused: number;
}

/** What a line was read from, kept beside the tree so that the next reading can compare. */
interface Provenance {
  readonly entries: readonly LineEntry[];
  readonly joined: readonly (string | null)[];
  readonly exit: LineEntry;
}

const provenance = new WeakMap<TuneTree | HeaderTree, Provenance>();

/** The dialect after a header: what its tunes begin with. */
export const dialectAfter = (header: HeaderTree): Dialect => provenance.get(header)?.exit.dialect ?? STANDARD_DIALECT;

interface LinesRead extends Provenance {
  readonly lines: readonly PlacedLine[];
  readonly linesRead: number;
}

export interface Reading<T> {
  readonly tree: T;
  readonly linesRead: number;
}

/** Reads a tune from its whole text, X: line first. `old` is an earlier reading of about the same text. */
export function readTune(text: string, dialect: Dialect, old: TuneTree | null): Reading<TuneTree> {
  const read = readLines(splitLines(text), { dialect, where: 'tune-header', block: null, continues: null }, old);
  const firstBody = read.entries.findIndex((entry, i) => entry.where !== 'tune-header' || read.lines[i]!.line.kind === 'music');
  const bodyStart = firstBody < 0 ? read.lines.length : firstBody;
  const tree: TuneTree = { kind: 'tune', lines: read.lines, length: text.length, bodyStart, strictness: read.exit.dialect.strictness };
  provenance.set(tree, read);
  return { tree, linesRead: read.linesRead };
}

/** Reads what stands before the first tune. */
export function readHeader(text: string, old: HeaderTree | null): Reading<HeaderTree> {
  const bom = text.startsWith('\ufeff') ? 1 : 0;
  const version = /^%abc-(\d+\.\d+)/.exec(text.slice(bom, bom + 20))?.[1] ?? null;
  const dialect: Dialect = { ...STANDARD_DIALECT, strictness: strictnessOf(version) };
  const pieces = splitLines(text.slice(bom));
  // A byte-order mark is a line of its own, so that no place in a line counts it.
  const read = readLines(pieces, { dialect, where: 'file-header', block: null, continues: null }, old, bom === 1 ? '\ufeff' : '');
  const tree: HeaderTree = { kind: 'header', lines: read.lines, length: text.length, version };
  provenance.set(tree, read);
  return { tree, linesRead: read.linesRead };
}

/** The lines of a text, each with its line end: LF, CRLF or CR. */
export function splitLines(text: string): readonly string[] {
  const starts = lineStarts(text);
  const lines = starts.map((from, i) => text.slice(from, starts[i + 1] ?? text.length));
  if (lines.at(-1) === '') lines.pop();
  return lines;
}

function readLines(pieces: readonly string[], start: LineEntry, old: TuneTree | HeaderTree | null, mark = ''): LinesRead {
  const joined = joinedValues(pieces);
  const before = old && provenance.get(old);
  const lines: PlacedLine[] = mark === '' ? [] : [{ at: 0, line: { kind: 'comment', text: mark, errors: [] } }];
  const entries: LineEntry[] = mark === '' ? [] : [start];
  const shift = old ? old.lines.length - pieces.length - lines.length : 0;
  let entry = start;
  let at = mark.length;
  let linesRead = 0;
  pieces.forEach((text, i) => {
    const index = lines.length;
    const kept =
      before && (reusable(old!, before, index, text, entry, joined[i]!) ?? reusable(old!, before, index + shift, text, entry, joined[i]!));
    const read = kept ?? readLine(text, entry, joined[i]!);
    if (!kept) linesRead++;
    lines.push({ at, line: read.line });
    entries.push(entry);
    entry = read.exit;
    at += text.length;
  });
  return { lines, entries, joined: mark === '' ? joined : [null, ...joined], exit: entry, linesRead };
}

function reusable(
  old: TuneTree | HeaderTree,
  { entries, joined, exit }: Provenance,
  i: number,
  text: string,
  entry: LineEntry,
  join: string | null,
): { line: Line; exit: LineEntry } | null {
  const line = old.lines[i]?.line;
  if (!line || line.text !== text || joined[i] !== join || !sameEntry(entries[i]!, entry)) return null;
  return { line, exit: entries[i + 1] ?? exit };
}

/** For each line, the joined values of the `+:` lines that continue it (comments and directives may stand between), else null. */
function joinedValues(pieces: readonly string[]): readonly (string | null)[] {
  const joined: (string | null)[] = new Array(pieces.length).fill(null);
  let values: string[] = [];
  for (let i = pieces.length - 1; i >= 0; i--) {
    const text = pieces[i]!;
    if (text.startsWith('+:')) values.push(continuedValue(text));
    else if (!text.startsWith('%')) {
      if (values.length > 0) joined[i] = values.reverse().join(' ');
      values = [];
    }
  }
  return joined;
}

function continuedValue(text: string): string {
  const end = contentEnd(text);
  const comment = text.search(/(?<!\\)%/);
  return text.slice(2, comment < 0 ? end : Math.min(comment, end)).trim();
}
