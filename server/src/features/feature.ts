// What an editor feature is: the stage it needs and a pure function from a question to plain data.
import type { HeaderTree, TuneTree } from '../abc/tree/tree.ts';
import type { Need, StageOf } from '../checks/check.ts';

/** Text of a tune, or of what stands before the first tune: features that need no more work in both. */
export interface TextView {
  readonly tree: TuneTree | HeaderTree;
  readonly text: string;
}

/** `text` asks for the lines alone; the rest are the stages of a tune. */
export type FeatureNeed = 'text' | Need;
export interface ViewOf extends StageOf {
  readonly text: TextView;
}

/** What the player set for writing help. */
export interface FeatureSettings {
  /** Hints in the text: the place of each note, or of notes where the hand moves; the sum of an unfinished bar. */
  readonly hints: { readonly places: 'off' | 'changes' | 'all'; readonly barSum: 'off' | 'on' };
}

export const defaultFeatureSettings: FeatureSettings = { hints: { places: 'off', barSum: 'on' } };

/** All offsets of a question and its answer are relative to the view's text. */
export interface Feature<N extends FeatureNeed, Question, Answer> {
  readonly needs: N;
  answer(view: ViewOf[N], question: Question, settings: FeatureSettings): Answer;
}
