// One cause, one finding: what a sign that is never closed brings about further on in its line is not told beside it.
import type { Finding } from '../check.ts';

/** Signs whose missing end swallows or breaks what stands after them. */
const swallowing = ['text.quote-unclosed', 'text.chord-unclosed', 'text.grace-unclosed', 'text.decoration-unclosed', 'text.field-unclosed'];

/** The findings without those that follow from an unclosed sign: all that touch the rest of its line, and repeats, whose other sign may stand there. */
export function withoutFollowers(findings: readonly Finding[], text: string): readonly Finding[] {
  const causes = findings.filter(({ code }) => swallowing.includes(code));
  const rests = causes.map((cause) => ({ cause, to: lineEnd(text, cause.to) }));
  if (rests.length === 0) return findings;
  return findings.filter(
    (found) =>
      causes.includes(found) ||
      (found.code !== 'repeat.unmatched' && !rests.some(({ cause, to }) => found.from < to && found.to > cause.from)),
  );
}

function lineEnd(text: string, from: number): number {
  const length = text.slice(from).search(/[\r\n]/);
  return length < 0 ? text.length : from + length;
}
