// Note values: which note, how many dots, which tuplet a duration is; and as short text (`e.` a dotted eighth, `e3` one of a triplet).
import { equal, fraction, mul } from '../score/fraction.ts';
import type { Fraction } from '../score/types.ts';

/** Names as the notation standards use them (MusicXML note-type-value), with our letter for each. */
const bases = [
  { name: 'breve', letter: 'b', length: fraction(2, 1) },
  { name: 'whole', letter: 'w', length: fraction(1, 1) },
  { name: 'half', letter: 'h', length: fraction(1, 2) },
  { name: 'quarter', letter: 'q', length: fraction(1, 4) },
  { name: 'eighth', letter: 'e', length: fraction(1, 8) },
  { name: '16th', letter: 's', length: fraction(1, 16) },
  { name: '32nd', letter: 't', length: fraction(1, 32) },
  { name: '64th', letter: 'x', length: fraction(1, 64) },
] as const;

const dotFactors = [fraction(1, 1), fraction(3, 2), fraction(7, 4)];

/** Tuplets tried: so many in the time of so many. */
const tuplets = [
  { actual: 1, normal: 1 },
  { actual: 3, normal: 2 },
  { actual: 5, normal: 4 },
  { actual: 2, normal: 3 },
  { actual: 7, normal: 4 },
] as const;

export interface NoteValue {
  readonly name: (typeof bases)[number]['name'];
  readonly letter: string;
  readonly dots: number;
  readonly tuplet: { readonly actual: number; readonly normal: number } | null;
}

/** The value of a note or rest of this length (whole notes), or null where it is no single note. */
export function noteValue(length: Fraction): NoteValue | null {
  for (const tuplet of tuplets) {
    const plain = mul(length, fraction(tuplet.actual, tuplet.normal));
    for (const base of bases) {
      const dots = dotFactors.findIndex((factor) => equal(plain, mul(base.length, factor)));
      if (dots >= 0) return { name: base.name, letter: base.letter, dots, tuplet: tuplet.actual === 1 ? null : tuplet };
    }
  }
  return null;
}

/** The value as text; the fraction itself where it is no single note. */
export function valueText(length: Fraction): string {
  const value = noteValue(length);
  return value === null ? `${length.num}/${length.den}` : value.letter + '.'.repeat(value.dots) + (value.tuplet?.actual ?? '');
}
