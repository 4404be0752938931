// Findings for people: the place, the message, the line of text with carets under the place, and a sum at the end.
import { plural } from './plural.ts';
import type { Reported } from './report.ts';

/** Longest stretch of a line that is shown. */
const widest = 120;

/** Findings of one file, whose text is given; an empty line stands between two. */
export function findingsText(findings: readonly Reported[], text: string): string {
  return findings.map((found) => `${headline(found)}\n${excerpt(found, text)}`).join('\n');
}

const headline = ({ file, line, column, severity, message, code }: Reported): string =>
  `${file}:${line}:${column}: ${severity}: ${message} [${code}]`;

/** The line with a caret under each unit of the place; a long line is cut around it. */
function excerpt({ from, to, column }: Reported, text: string): string {
  const start = from - (column - 1);
  const length = text.slice(start).search(/[\r\n]|$/);
  const line = text.slice(start, start + length);
  const cut = Math.max(0, Math.min(column - 1 - Math.floor(widest / 2), line.length - widest));
  const shown = line.slice(cut, cut + widest);
  const carets = Math.max(1, Math.min(to - from, shown.length - (column - 1 - cut)));
  // Tabs stay tabs under the text, so that the carets stand where the eye looks.
  const indent = shown.slice(0, column - 1 - cut).replace(/[^\t]/g, ' ');
  return `  ${shown}\n  ${indent}${'^'.repeat(carets)}\n`;
}

/** How many findings of each severity, in how many of the files checked. */
export type Tally = Readonly<Record<Reported['severity'] | 'hit' | 'files', number>>;

/** `3 errors, 1 warning in 2 of 5 files.` */
export function sumOf({ error, warning, info, hit, files }: Tally): string {
  if (hit === 0) return `No findings in ${plural(files, 'file')}.`;
  const parts = [plural(error, 'error'), plural(warning, 'warning'), ...(info > 0 ? [`${info} info`] : [])];
  return `${parts.join(', ')} in ${hit} of ${plural(files, 'file')}.`;
}
