// Transposes the whole tune, pins included where they stay possible.
import { transposeEdits } from '../../arrangement/index.ts';
import type { Action } from './action.ts';

/** Intervals that players ask for, in semitones. */
const intervals = [
  { by: 2, words: 'a tone up' },
  { by: -2, words: 'a tone down' },
  { by: 5, words: 'a fourth up' },
  { by: -5, words: 'a fourth down' },
];

export const transpose: Action<'part'> = {
  id: 'transpose',
  needs: 'part',
  /** Offered in the header alone: it changes the whole tune, and would be in the way among the notes. */
  offers(stage, selection) {
    const body = stage.tree.lines[stage.tree.bodyStart]?.at ?? stage.tree.length;
    return selection.to < body ? intervals.map(({ by, words }) => ({ variant: String(by), title: `Transpose the tune ${words}` })) : [];
  },
  edits: (stage, _selection, variant) => transposeEdits(stage, Number(variant)).edits,
};
