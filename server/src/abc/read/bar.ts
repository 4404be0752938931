// Bar lines, repeats and ending numbers.
import type { Offset } from '../../text/span.ts';
import { BAR, CLOSE_BRACKET, COLON, COMMA, DOT, HYPHEN, isDigit, OPEN_BRACKET } from '../scan/chars.ts';
import { numberOf, skipDigits } from '../scan/numbers.ts';
import type { BarItem, EndingNumbers } from '../tree/items.ts';
import { type LineReading, report } from './line-reading.ts';

/** A passage is repeated at most this often, whatever the number of colons. */
const MOST_REPEATS = 8;

/** The highest ending number that is read. */
const HIGHEST_ENDING = 99;

/** The bar line at `at`, any liberal run of `| : [ ]` that holds a bar or two colons; null if there is none. */
export function readBar(line: LineReading, at: Offset): BarItem | null {
  const { text } = line;
  const dotted = text.charCodeAt(at) === DOT;
  const signEnd = skipBarSign(text, dotted ? at + 1 : at, line.end);
  if (signEnd === (dotted ? at + 1 : at)) return null;
  const sign = text.slice(at, signEnd);
  const ending = signEnd < line.end ? readEndingNumbers(line, signEnd) : null;
  const leading = countColons(sign, 0, 1);
  const trailing = leading === sign.length ? 0 : countColons(sign, sign.length - 1, -1);
  const onlyColons = leading === sign.length;
  return {
    kind: 'bar',
    from: at,
    to: ending?.to ?? signEnd,
    sign,
    endRepeats: Math.min(onlyColons ? Math.ceil(leading / 2) : leading, MOST_REPEATS),
    startRepeats: Math.min(onlyColons ? Math.floor(leading / 2) : trailing, MOST_REPEATS),
    weight: weightOf(sign),
    ending,
  };
}

function skipBarSign(text: string, at: Offset, end: Offset): Offset {
  let here = at;
  let bars = 0;
  for (; here < end; here++) {
    const code = text.charCodeAt(here);
    if (code === BAR) bars++;
    else if (code === CLOSE_BRACKET) {
      if (here === at || text.charCodeAt(here - 1) === COLON) break;
    } else if (code === OPEN_BRACKET) {
      const next = here + 1 < end ? text.charCodeAt(here + 1) : 0;
      if (next !== BAR && next !== CLOSE_BRACKET) break;
    } else if (code !== COLON) break;
  }
  // A single colon, or brackets alone, are no bar line.
  if (bars > 0) return here;
  return here - at > 1 && text.charCodeAt(at) === COLON ? here : at;
}

function countColons(sign: string, from: number, step: 1 | -1): number {
  let count = 0;
  for (let at = from; sign.charCodeAt(at) === COLON; at += step) count++;
  return count;
}

function weightOf(sign: string): BarItem['weight'] {
  if (sign.charCodeAt(0) === DOT) return 'dotted';
  if (sign.includes('[|]')) return 'unseen';
  if (sign.includes('|]')) return 'final';
  if (sign.includes('[|')) return 'initial';
  return sign.includes('||') ? 'double' : 'single';
}

/** Ending numbers at `at`, with or without `[` before: `1`, `[2`, `[1,3`, `[1-3`; null if no digit stands there. */
export function readEndingNumbers(line: LineReading, at: Offset): EndingNumbers | null {
  const { text, end } = line;
  const from = text.charCodeAt(at) === OPEN_BRACKET ? at + 1 : at;
  if (from >= end || !isDigit(text.charCodeAt(from))) return null;
  const numbers = new Set<number>();
  let here = from;
  let wrong = false;
  for (;;) {
    const firstEnd = skipDigits(text, here, end);
    const first = numberOf(text, here, firstEnd);
    let last = first;
    here = firstEnd;
    if (follows(text, here, end, HYPHEN)) {
      const lastEnd = skipDigits(text, here + 1, end);
      last = numberOf(text, here + 1, lastEnd);
      here = lastEnd;
    }
    wrong ||= first < 1 || last < first || last > HIGHEST_ENDING;
    for (let n = Math.max(first, 1); n <= Math.min(last, HIGHEST_ENDING); n++) numbers.add(n);
    if (!follows(text, here, end, COMMA)) break;
    here++;
  }
  if (wrong) report(line, 'text.ending-wrong', from, here);
  return { from: at, to: here, numbers: [...numbers].sort((a, b) => a - b) };
}

function follows(text: string, at: Offset, end: Offset, sign: number): boolean {
  return at + 1 < end && text.charCodeAt(at) === sign && isDigit(text.charCodeAt(at + 1));
}
