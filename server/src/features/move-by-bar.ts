// Where the caret goes by bars.
import type { Offset } from '../text/span.ts';
import type { Feature } from './feature.ts';

/** The question is the caret and the way; the answer the start of the next bar of the same voice, or of this one going back; null at the ends. */
export const moveByBar: Feature<'score', { readonly at: Offset; readonly way: 'on' | 'back' }, Offset | null> = {
  needs: 'score',
  answer({ score, text }, { at, way }) {
    const starts = score.voices.flatMap((voice) => voice.bars.map((bar) => firstSign(text, bar.from, bar.to))).sort((a, b) => a - b);
    return (way === 'on' ? starts.find((start) => start > at) : starts.findLast((start) => start < at)) ?? null;
  },
};

/** The first sign of a bar that is no white space and no line end. */
const firstSign = (text: string, from: Offset, to: Offset): Offset => from + (/\S/.exec(text.slice(from, to))?.index ?? 0);
