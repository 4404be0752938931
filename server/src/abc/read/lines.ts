// A text cut into lines, and what `+:` lines add to the lines before them.
import { lineStarts } from '../../text/line-index.ts';
import { contentEnd } from './line.ts';

/** The lines of a text, each with its line end: LF, CRLF or CR. */
export function splitLines(text: string): readonly string[] {
  const starts = lineStarts(text);
  const lines = starts.map((from, i) => text.slice(from, starts[i + 1] ?? text.length));
  if (lines.at(-1) === '') lines.pop();
  return lines;
}

/** For each line, the joined values of the `+:` lines that continue it (comments and directives may stand between), else null. */
export function joinedValues(pieces: readonly string[]): readonly (string | null)[] {
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
