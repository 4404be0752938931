// Tuplet signs: `(3`, `(3:2`, `(3:2:4`, `(3::4`.
import type { Offset } from '../../text/span.ts';
import { BAR, COLON } from '../scan/chars.ts';
import { numberOf, skipDigits } from '../scan/numbers.ts';
import type { TupletItem } from '../tree/items.ts';
import { type LineReading, report } from './line-reading.ts';

/** The tuplet at `at`, where `(` and a digit stand. Numbers that make no tuplet are reported, and the tuplet then changes nothing. */
export function readTuplet(line: LineReading, at: Offset): TupletItem {
  const { text, end } = line;
  let to = skipDigits(text, at + 1, end);
  const p = numberOf(text, at + 1, to);
  const rest: (number | null)[] = [];
  while (rest.length < 2 && to < end && text.charCodeAt(to) === COLON) {
    const from = to + 1;
    const digitsEnd = skipDigits(text, from, end);
    // A colon of a bar line (`:|`) is not the tuplet's.
    if (text.charCodeAt(from) === BAR) break;
    rest.push(digitsEnd > from ? numberOf(text, from, digitsEnd) : null);
    to = digitsEnd;
  }
  const [q = null, r = null] = rest;
  if (p >= 2 && q !== 0 && r !== 0) return { kind: 'tuplet', from: at, to, p, q, r };
  report(line, 'text.tuplet-wrong', at, to);
  return { kind: 'tuplet', from: at, to, p: 1, q: 1, r: 1 };
}
