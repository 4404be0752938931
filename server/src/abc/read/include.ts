// Included files (`I:abc-include`): their fields and definitions, as if they stood in the place of the line that names them.
import type { Span } from '../../text/span.ts';
import type { Field, FieldValue } from '../tree/fields.ts';
import { type LineEntry, readLine } from './line.ts';
import { type LineReading, report } from './line-reading.ts';
import { splitLines } from './lines.ts';

/** Gives the text of a named file, or null if there is none that may be read. The name is as written. */
export type Include = (name: string) => string | null;

/** Files that one line brings in, included ones counted, and signs in each; more is refused. */
const MOST_FILES = 100;
const LONGEST_FILE = 200_000;

export interface Inclusion {
  readonly read: Include;
  /** Names of the files being read, outermost first. */
  readonly open: readonly string[];
  readonly budget: { left: number };
}

export const inclusionOf = (read: Include): Inclusion => ({ read, open: [], budget: { left: MOST_FILES } });

/** The fields of the file that an instruction names, their spans on the instruction; what the file defines goes to the line's dialect. */
export function readIncluded(line: LineReading, name: string, span: Span, entry: LineEntry, inclusion: Inclusion): readonly Field[] {
  const problem = problemOf(name, inclusion);
  const text = problem === null ? inclusion.read(name) : null;
  if (problem !== null || text === null || text.length > LONGEST_FILE) {
    const missing =
      text === null ? `${name} cannot be read. Check its name; it must lie in the folder.` : `${name} is too long to be included.`;
    report(line, 'text.include-failed', span.from, span.to, problem ?? missing);
    return [];
  }
  inclusion.budget.left--;
  const fields: Field[] = [];
  let inside: LineEntry = { ...entry, dialect: line.dialect, where: 'file-header', block: null, continues: null };
  for (const piece of splitLines(text.replace(/^\ufeff/, ''))) {
    const read = readLine(piece, inside, null, { ...inclusion, open: [...inclusion.open, name] });
    if (read.line.kind === 'field' || read.line.kind === 'directive')
      fields.push(...[read.line.field, ...(read.line.included ?? [])].map((field) => placedOn(field, span)));
    // Other errors of the file are told where it is open itself.
    for (const error of read.line.errors)
      if (error.code === 'text.include-failed') line.errors.push({ ...error, span: { from: span.from, to: span.to } });
    // An empty line ends nothing here.
    inside = { ...read.exit, where: 'file-header' };
  }
  line.dialect = inside.dialect;
  return fields;
}

function problemOf(name: string, { open, budget }: Inclusion): string | null {
  if (name === '') return 'I:abc-include needs the name of a file.';
  if (open.includes(name)) return `${name} includes itself. Take one of the lines out.`;
  return budget.left > 0 ? null : `More than ${MOST_FILES} files are included here; ${name} is left out.`;
}

const placedOn = (field: Field, { from, to }: Span): Field => ({
  ...field,
  from,
  to,
  textSpan: { from, to },
  value: valueOn(field.value, { from, to }),
});

function valueOn(value: FieldValue, span: Span): FieldValue {
  if (value.kind === 'voice') return { ...value, idSpan: span };
  if (value.kind === 'instruction') return { ...value, keyed: value.keyed.map((pair) => ({ ...pair, keySpan: span, valueSpan: span })) };
  return value;
}
