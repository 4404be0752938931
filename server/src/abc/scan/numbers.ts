// Whole numbers and written lengths.
import type { WrittenLength } from '../tree/items.ts';
import { isDigit, SLASH } from './chars.ts';

/** The largest number that is read as written; longer ones stay at it, so that sums of lengths keep exact. */
export const LARGEST = 9_999;

/** After the digits at `at`. */
export function skipDigits(text: string, at: number, end: number): number {
  let here = at;
  while (here < end && isDigit(text.charCodeAt(here))) here++;
  return here;
}

/** The number written from `from` to `to`, all digits; at most `LARGEST`. */
export function numberOf(text: string, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at++) {
    value = value * 10 + text.charCodeAt(at) - 48;
    if (value > LARGEST) return LARGEST;
  }
  return value;
}

/** After the length at `at`: `3`, `3/2`, `/`, `//`, `/4`, or nothing. */
export function skipLength(text: string, at: number, end: number): number {
  let here = skipDigits(text, at, end);
  if (text.charCodeAt(here) !== SLASH || here >= end) return here;
  while (here < end && text.charCodeAt(here) === SLASH) here++;
  return skipDigits(text, here, end);
}

const UNIT: WrittenLength = { num: 1, den: 1 };
const HALF: WrittenLength = { num: 1, den: 2 };
const WHOLES: readonly WrittenLength[] = Array.from({ length: 17 }, (_, num) => ({ num, den: 1 }));

/** The length written from `from` to `to`, a stretch that `skipLength` gave. Zeros are kept as written. */
export function lengthOf(text: string, from: number, to: number): WrittenLength {
  if (from === to) return UNIT;
  const digitsEnd = skipDigits(text, from, to);
  const num = digitsEnd > from ? numberOf(text, from, digitsEnd) : 1;
  if (digitsEnd === to) return WHOLES[num] ?? { num, den: 1 };
  let slashes = digitsEnd;
  while (slashes < to && text.charCodeAt(slashes) === SLASH) slashes++;
  const count = slashes - digitsEnd;
  // Each slash halves; a number after the last one stands in the place of its 2.
  const last = slashes < to ? numberOf(text, slashes, to) : 2;
  const den = Math.min(last * 2 ** Math.min(count - 1, 13), LARGEST);
  return num === 1 && den === 2 ? HALF : { num, den };
}
