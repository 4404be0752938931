// One cause, one finding: what a slip brings about elsewhere is not told beside it.
import type { Span } from '../../text/span.ts';
import type { Finding } from '../check.ts';

/** Signs whose missing end swallows or breaks what stands after them. */
const swallowing = ['text.quote-unclosed', 'text.chord-unclosed', 'text.grace-unclosed', 'text.decoration-unclosed', 'text.field-unclosed'];

/** What may be told far from the swallowed sign or note that it misses: the other sign of a repeat, the words under notes. */
const elsewhere = ['repeat.unmatched', 'text.lyrics-too-many'];

/** What words are called where a quote before them is missing, so that words and music have changed places up to the unclosed one. */
const misread = ['text.not-music', 'text.symbol-undefined', 'text.reserved-sign', 'bar.too-long', 'bar.too-short'];

/** The findings without those that follow from another. */
export function withoutFollowers(findings: readonly Finding[], text: string): readonly Finding[] {
  const causes = findings.filter(({ code }) => swallowing.includes(code));
  return findings.filter(
    (found) =>
      !causes.some((cause) => cause !== found && isSwallowed(found, cause, text)) && !findings.some((cause) => isCause(cause, found)),
  );
}

/** Whether a finding lies in the rest of the line after an unclosed sign, or misses what may stand there. */
function isSwallowed(found: Finding, cause: Finding, text: string): boolean {
  if (swallowing.includes(found.code) && found.from <= cause.from) return false;
  const line = lineAround(text, cause);
  const touches = (from: number): boolean => [found, ...found.related].some((place) => place.from < line.to && place.to > from);
  if (elsewhere.includes(found.code) || touches(cause.from)) return true;
  return cause.code === 'text.quote-unclosed' && misread.includes(found.code) && touches(line.from);
}

function isCause({ code, from, to }: Finding, found: Finding): boolean {
  // A version whose declaration cannot be read is not out of step with its source.
  if (found.code.startsWith('version.')) return code === 'bullfiddle.unknown-key' || code === 'bullfiddle.bad-value';
  // The note that a tie was meant for is out of range, or is the one that its bar lacks.
  if (found.code === 'tie.different-pitch')
    return (code.startsWith('range.') || code === 'bar.too-short') && found.related.some((note) => note.from < to && note.to > from);
  // While a bar lacks notes, its words are too many.
  return found.code === 'text.lyrics-too-many' && code === 'bar.too-short';
}

function lineAround(text: string, { from, to }: Span): Span {
  const length = text.slice(to).search(/[\r\n]/);
  return {
    from: Math.max(text.lastIndexOf('\n', from - 1), text.lastIndexOf('\r', from - 1)) + 1,
    to: length < 0 ? text.length : to + length,
  };
}
