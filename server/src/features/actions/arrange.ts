// Adds a low or high version after a melody, and names the melody as its source, so that both are kept in step.
import { type ArrangeTools, arrange, sourceTagEdits } from '../../arrangement/index.ts';
import type { PartStage } from '../../arrangement/types.ts';
import type { Edit } from '../../text/span.ts';
import { headerOf } from '../headers.ts';
import { endOfMusic } from '../symbols.ts';
import type { Action } from './action.ts';

export const arrangeVersions: Action<'part'> = {
  id: 'arrange',
  needs: 'part',
  offers(stage) {
    if (stage.parts[0]?.kind !== 'melody') return [];
    const there = new Set(stage.siblings.map(({ tree }) => headerOf(tree).version));
    return (['low', 'high'] as const)
      .filter((version) => !there.has(version))
      .map((version) => ({ variant: version, title: `Arrange a ${version} version for the bass` }));
  },
  edits(stage, _selection, variant, tools): readonly Edit[] {
    const made = versionEdits(stage, variant === 'high' ? 'high' : 'low', tools);
    return made.kind === 'edits' ? made.edits : [];
  },
};

export type VersionEdits =
  | { readonly kind: 'edits'; readonly edits: readonly Edit[]; readonly warnings: readonly string[] }
  | { readonly kind: 'impossible'; readonly message: string };

/** The edits that add a version after its source, with what the player should know; or why there can be none. */
export function versionEdits(stage: PartStage, version: 'low' | 'high', tools: ArrangeTools): VersionEdits {
  const request = { version, number: freeNumber(stage), keyShift: 0, tempo: null, thin: 'auto', pins: 'changes' } as const;
  const arranged = arrange(stage, request, tools);
  if (arranged.kind === 'impossible') return arranged;
  const end = endOfFamily(stage);
  const lineEnd = /\r\n|\n|\r/.exec(stage.text)?.[0] ?? '\n';
  const added = { span: { from: end, to: end }, insert: `\n\n${arranged.text.trimEnd()}`.replace(/\r\n|\n/g, lineEnd) };
  return { kind: 'edits', edits: [...sourceTagEdits(stage), added], warnings: arranged.warnings };
}

/** The end of the last version that stands after the melody, else of the melody itself; relative to the melody's tune. */
function endOfFamily({ book, index, tree, siblings }: PartStage): number {
  const last = siblings.filter((one) => one.index > index).at(-1);
  return last === undefined ? endOfMusic(tree) : book.tunes[last.index]!.at - book.tunes[index]!.at + endOfMusic(last.tree);
}

/** One more than the highest number of the book. */
const freeNumber = ({ book }: PartStage): number =>
  1 + Math.max(0, ...book.tunes.map(({ tree }) => Number.parseInt(headerOf(tree).number, 10) || 0));
