// Fractions stay exact and in lowest terms.
import { describe, expect, it } from 'vitest';
import { add, compare, div, equal, fraction, mul, parse, sub, toNumber, toText } from '../../../server/src/score/fraction.ts';
import { seeded } from '../../support/random.ts';

describe('fractions', () => {
  it('are in lowest terms, with the sign above', () => {
    expect(fraction(6, 8)).toEqual({ num: 3, den: 4 });
    expect(fraction(3, -6)).toEqual({ num: -1, den: 2 });
    expect(fraction(0, 9)).toEqual({ num: 0, den: 1 });
  });

  it('keep the laws of arithmetic', () => {
    const random = seeded(3);
    const some = () => fraction(random.below(200) - 100, random.below(99) + 1);
    for (let round = 0; round < 2_000; round++) {
      const [a, b, c] = [some(), some(), some()];
      expect(add(a, b)).toEqual(add(b, a));
      expect(sub(add(a, b), b)).toEqual(a);
      expect(mul(a, add(b, c))).toEqual(add(mul(a, b), mul(a, c)));
      if (b.num !== 0) expect(mul(div(a, b), b)).toEqual(a);
      expect(Math.sign(compare(a, b))).toBe(Math.sign(toNumber(a) - toNumber(b)) || 0);
      expect(parse(toText(a))).toEqual(a);
    }
  });

  it('too fine to count go to the nearest that is not', () => {
    let sum = fraction(0, 1);
    for (const prime of [9_973, 9_967, 9_949, 9_941, 9_931]) sum = add(sum, fraction(1, prime));
    expect(toNumber(sum)).toBeCloseTo(5 / 9_950, 4);
    expect(Number.isSafeInteger(sum.num) && Number.isSafeInteger(sum.den)).toBe(true);
  });

  it('read only fractions', () => {
    expect(['3/8', '-2', '1/0', 'x', '1/2/3'].map(parse)).toEqual([fraction(3, 8), fraction(-2, 1), null, null, null]);
    expect(equal(fraction(2, 4), fraction(1, 2))).toBe(true);
  });
});
