// Exact fractions in lowest terms: times and lengths in whole notes.
import type { Fraction } from './types.ts';

/** Beyond exact integers a time is kept as the nearest multiple of this part of a whole note; no music comes near. */
const FINEST = 40_320;

const SMALL = 65;
const small: (Fraction | undefined)[] = new Array(SMALL * SMALL);

export const ZERO: Fraction = fraction(0, 1);
export const ONE: Fraction = fraction(1, 1);

/** num/den in lowest terms; den must not be 0 (a negative one moves its sign to num). */
export function fraction(num: number, den: number): Fraction {
  if (num >= 0 && den > 0 && num < SMALL && den < SMALL) {
    const at = num * SMALL + den;
    const known = small[at];
    if (known) return known;
    const made = reduced(num, den);
    small[at] = made;
    return made;
  }
  return reduced(num, den);
}

function reduced(num: number, den: number): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den)) return nearest(num, den);
  const by = gcd(Math.abs(num), Math.abs(den)) * (den < 0 ? -1 : 1);
  return { num: num / by || 0, den: den / by };
}

function nearest(num: number, den: number): Fraction {
  const parts = Math.round((num / den) * FINEST);
  return Number.isSafeInteger(parts) ? reduced(parts, FINEST) : { num: Number.MAX_SAFE_INTEGER, den: 1 };
}

function gcd(a: number, b: number): number {
  let x = a;
  let y = b;
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}

export function add(a: Fraction, b: Fraction): Fraction {
  return a.den === b.den ? fraction(a.num + b.num, a.den) : fraction(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function sub(a: Fraction, b: Fraction): Fraction {
  return a.den === b.den ? fraction(a.num - b.num, a.den) : fraction(a.num * b.den - b.num * a.den, a.den * b.den);
}

export const mul = (a: Fraction, b: Fraction): Fraction => fraction(a.num * b.num, a.den * b.den);

/** a / b; b must not be zero. */
export const div = (a: Fraction, b: Fraction): Fraction => fraction(a.num * b.den, a.den * b.num);

/** Negative, zero or positive as a is less than, equal to or greater than b. */
export const compare = (a: Fraction, b: Fraction): number => a.num * b.den - b.num * a.den;

export const equal = (a: Fraction, b: Fraction): boolean => a.num === b.num && a.den === b.den;

export const toNumber = (a: Fraction): number => a.num / a.den;

/** `3/8`, or `2` for whole numbers. */
export const toText = (a: Fraction): string => (a.den === 1 ? String(a.num) : `${a.num}/${a.den}`);

/** Reads `3/8` or `2` (a sign is allowed); null for anything else. */
export function parse(text: string): Fraction | null {
  const match = /^\s*(-?\d{1,15})(?:\/(\d{1,15}))?\s*$/.exec(text);
  if (!match) return null;
  const den = Number(match[2] ?? 1);
  return den === 0 ? null : fraction(Number(match[1]), den);
}
