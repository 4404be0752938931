// A player at the keys: phrases typed a key at a time somewhere in a tune and taken back later, so that the text keeps its size.
import type { Random } from '../random.ts';

/** One press of a key: `length` units at `from` become `insert`. */
export interface Key {
  readonly from: number;
  readonly length: number;
  readonly insert: string;
}

const phrases = ['G,2A,B,', '(B,C)', '!4!D', '"Am"', '^F,2 z', '[G,D]', '|\n', 'D,>E,', '{A,}', '(3G,A,B,', 'G,-G,', ' !>!'];

/** Keys without end on a text of `length` units, in its part from `start` on. */
export function* typing(random: Random, start: number, length: number): Generator<Key, never> {
  for (;;) {
    const phrase = random.pick(phrases);
    const from = start + random.below(length - start);
    for (let i = 0; i < phrase.length; i++) yield { from: from + i, length: 0, insert: phrase[i]! };
    for (let i = phrase.length - 1; i >= 0; i--) yield { from: from + i, length: 1, insert: '' };
  }
}
