// Note values as short text: `q` a quarter, `e.` a dotted eighth, `e3` an eighth of a triplet.
import { compare, fraction, mul, sub, ZERO } from '../../score/fraction.ts';
import type { Fraction } from '../../score/types.ts';

const letters: readonly (readonly [string, Fraction])[] = [
  ['b', fraction(2, 1)],
  ['w', fraction(1, 1)],
  ['h', fraction(1, 2)],
  ['q', fraction(1, 4)],
  ['e', fraction(1, 8)],
  ['s', fraction(1, 16)],
  ['t', fraction(1, 32)],
  ['x', fraction(1, 64)],
];

/** Tuplets tried, by the factor that gives the value written: three in the time of two, five of four, two of three. */
const tuplets: readonly (readonly [string, Fraction])[] = [
  ['', fraction(1, 1)],
  ['3', fraction(3, 2)],
  ['5', fraction(5, 4)],
  ['2', fraction(2, 3)],
  ['7', fraction(7, 4)],
];

/** The value of a note or rest (in whole notes) as text; the fraction itself where it is no single note. */
export function valueText(duration: Fraction): string {
  for (const [sign, factor] of tuplets) {
    const plain = plainValue(mul(duration, factor));
    if (plain !== null) return plain + sign;
  }
  return `${duration.num}/${duration.den}`;
}

/** A value with up to two dots, or null. */
function plainValue(duration: Fraction): string | null {
  for (const [letter, base] of letters) {
    const factor = [fraction(1, 1), fraction(3, 2), fraction(7, 4)];
    const dots = factor.findIndex((by) => compare(sub(duration, mul(base, by)), ZERO) === 0);
    if (dots >= 0) return letter + '.'.repeat(dots);
  }
  return null;
}
