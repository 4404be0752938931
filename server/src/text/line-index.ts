// Lines and columns of a text: offsets to positions and back, for LF, CRLF and lone CR.
import type { Offset } from './span.ts';

/** A place as editors count it: 0-based line, 0-based UTF-16 column. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface LineIndex {
  /** Places outside the text are moved to its nearest end. */
  positionAt(offset: Offset): Position;
  /** Columns past the end of a line give the end of its text, before the line end. */
  offsetAt(position: Position): Offset;
  readonly lineCount: number;
}

const LF = 10;
const CR = 13;

/** Offsets at which lines begin; the first is 0. A line after the last line end counts, even if empty. */
export function lineStarts(text: string): readonly Offset[] {
  const starts = [0];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code !== LF && code !== CR) continue;
    if (code === CR && text.charCodeAt(at + 1) === LF) at++;
    starts.push(at + 1);
  }
  return starts;
}

/** An index of the text's lines; building it reads the text once, each question takes logarithmic time. */
export function lineIndex(text: string): LineIndex {
  const starts = lineStarts(text);
  const lineOf = (offset: Offset): number => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  return {
    lineCount: starts.length,
    positionAt(offset) {
      const inside = Math.min(Math.max(offset, 0), text.length);
      const line = lineOf(inside);
      return { line, character: inside - starts[line]! };
    },
    offsetAt({ line, character }) {
      if (line < 0) return 0;
      if (line >= starts.length) return text.length;
      const start = starts[line]!;
      return Math.min(start + Math.max(character, 0), endOfLine(text, starts[line + 1] ?? text.length, start));
    },
  };
}

/** Where the text of a line ends that begins at `start` and whose next line begins at `next`. */
function endOfLine(text: string, next: Offset, start: Offset): Offset {
  let end = next;
  if (end > start && text.charCodeAt(end - 1) === LF) end--;
  if (end > start && text.charCodeAt(end - 1) === CR) end--;
  return end;
}
