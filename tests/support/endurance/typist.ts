// A player at the keys: phrases typed a key at a time somewhere in a tune and taken back later, so that the text keeps its size.
import type { Random } from '../random.ts';

/** One press of a key: `length` units at `from` become `insert`. */
export interface Key {
  readonly from: number;
  readonly length: number;
  readonly insert: string;
}

/** A tune of so many bars, and where its music begins. */
export function tuneOf(bars: number): { readonly text: string; readonly body: number } {
  const header = 'X:1\nT:Endurance\nM:4/4\nL:1/8\nQ:1/4=100\nK:G clef=bass\n';
  const four = ['G,2B,D G,B,DG', 'C2EC A,CEA', 'D2F,A, D,E,F,A,', 'G,4 B,2D2'];
  return { text: header + `${four.join('|')}|\n`.repeat(bars / 4), body: header.length };
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
