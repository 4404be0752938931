// What is known while one line is read: its text, how far the music goes, the dialect (fields change it), the errors found.
import type { Offset } from '../../text/span.ts';
import type { TextError } from '../tree/tree.ts';
import type { Dialect } from './dialect.ts';
import { type TextErrorCode, textError } from './errors.ts';

export interface LineReading {
  readonly text: string;
  /** Where the line's content ends: before a comment and the line end. */
  readonly end: Offset;
  dialect: Dialect;
  readonly errors: TextError[];
}

export function report(line: LineReading, code: TextErrorCode, from: Offset, to: Offset, what?: string): void {
  line.errors.push(textError(code, line.dialect.strictness, from, to, what ?? line.text.slice(from, to)));
}
