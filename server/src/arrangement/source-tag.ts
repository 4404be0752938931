// Naming a melody as the source of its versions, so that they are kept in step.
import type { Edit } from '../text/span.ts';
import { slugFor } from './arranged-header.ts';
import type { ScoreStage } from './types.ts';
import { versionOf } from './versions.ts';

/** The declaration that makes a tune the source of versions. */
export const sourceTag = (stage: ScoreStage): string => `I:bullfiddle tune=${slugFor(stage)} version=source`;

/** Edits that declare a tune to be the source, before its key; none if it declares a version already. */
export function sourceTagEdits(stage: ScoreStage): readonly Edit[] {
  const declared = versionOf(stage);
  const key = stage.tree.lines.slice(0, stage.tree.bodyStart).findLast(({ line }) => line.kind === 'field' && line.field.letter === 'K');
  if ((declared !== null && declared.tune !== '') || key === undefined) return [];
  const lineEnd = /\r\n|\n|\r/.exec(stage.text)?.[0] ?? '\n';
  return [{ span: { from: key.at, to: key.at }, insert: sourceTag(stage) + lineEnd }];
}
