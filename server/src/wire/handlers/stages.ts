// The stage of a tune in an open document, as far as a handler asks.
import { partStage, scoreStage, treeStage } from '../../arrangement/index.ts';
import type { PartStage, PlanStage, ScoreStage, TreeStage } from '../../arrangement/types.ts';
import type { TextView } from '../../features/index.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';

export const treeOf = (document: OpenDocument, tune: number): TreeStage => treeStage(document.book, tune);
export const scoreOf = (document: OpenDocument, tune: number): ScoreStage => scoreStage(document.book, tune);
export const partOf = ({ settings }: Desktop, document: OpenDocument, tune: number): PartStage =>
  partStage(document.book, tune, settings.of(document.uri));

/** The plan as soon as it is found; null if the text changes before. */
export const planOf = async ({ desk }: Desktop, document: OpenDocument, tune: number): Promise<PlanStage | null> =>
  (await desk.planned(document, tune))?.plan ?? null;

/** A tune's text, or for -1 the text in front of the first tune. */
export function viewOf(document: OpenDocument, tune: number): TextView {
  if (tune >= 0) return treeOf(document, tune);
  const tree = document.book.header;
  return { tree, text: document.text.slice(0, tree.length) };
}

/** Indices of all tunes of a document. */
export const tunesOf = (document: OpenDocument): readonly number[] => document.book.tunes.map((_, tune) => tune);
