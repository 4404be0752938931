// Tunes with a caret for the tests of features: `$0` is the caret and is taken out of the text.
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, partStage, planStage, scoreStage, treeStage } from '../../../server/src/arrangement/index.ts';
import type { PlanStage } from '../../../server/src/arrangement/types.ts';
import {
  defaultFeatureSettings,
  type Feature,
  type FeatureNeed,
  type FeatureSettings,
  type TextView,
} from '../../../server/src/features/feature.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';

const tables = makeTables(8_000_000);

/** A body becomes a whole tune in D for the bass; a text with fields stays as it is. */
export const tuneOf = (text: string): string => (/^(X:|%abc)/m.test(text) ? text : `X:1\nM:4/4\nL:1/8\nK:D clef=bass\n${text}\n`);

/** The text without its caret, and where the caret stood. */
export function withCaret(marked: string): { readonly text: string; readonly at: number } {
  const at = marked.indexOf('$0');
  return at < 0 ? { text: marked, at: 0 } : { text: marked.slice(0, at) + marked.slice(at + 2), at };
}

/** The first tune of a text, at the stage with its plan (which holds all other stages). */
export function stageOf(text: string): PlanStage {
  return planStage(readBook(text), 0, defaultConfig, tables);
}

/** Asks a feature about the first tune, giving it no more than the stage it says it needs. */
export function ask<Q, R>(
  feature: Feature<FeatureNeed, Q, R> | AnyFeature<Q, R>,
  text: string,
  question: Q,
  settings: FeatureSettings = defaultFeatureSettings,
): R {
  const book = readBook(text);
  const view = {
    text: (): TextView => treeStage(book, 0),
    tree: () => treeStage(book, 0),
    score: () => scoreStage(book, 0),
    part: () => partStage(book, 0, defaultConfig),
    plan: () => stageOf(text),
  }[feature.needs]();
  return (feature as { answer(view: TextView, question: Q, settings: FeatureSettings): R }).answer(view, question, settings);
}

type AnyFeature<Q, R> = { [N in FeatureNeed]: Feature<N, Q, R> }[FeatureNeed];

/** The texts of spans. */
export const texts = (text: string, spans: readonly { readonly from: number; readonly to: number }[]): readonly string[] =>
  spans.map(({ from, to }) => text.slice(from, to));
