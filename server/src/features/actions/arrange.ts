// Adds a low or high version or a bass line from its chords after a melody, and names the melody as its source, so that both are kept in step.
import { type ArrangeTools, arrange, backing, sourceTagEdits } from '../../arrangement/index.ts';
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
    return kinds
      .filter((version) => !there.has(version))
      .map((version) => ({
        variant: version,
        title: version === 'backing' ? 'Write a bass line of roots and fifths' : `Arrange a ${version} version for the bass`,
      }));
  },
  edits(stage, _selection, variant, tools): readonly Edit[] {
    const made = versionEdits(stage, kinds.find((kind) => kind === variant) ?? 'low', tools);
    return made.kind === 'edits' ? made.edits : [];
  },
};

const kinds = ['low', 'high', 'backing'] as const;

/** What can be made of a melody: a version of it, or a line to go with it. */
type VersionKind = (typeof kinds)[number];

export type VersionEdits =
  | { readonly kind: 'edits'; readonly edits: readonly Edit[]; readonly warnings: readonly string[] }
  | { readonly kind: 'impossible'; readonly message: string };

/** The edits that add a version after its source, with what the player should know; or why there can be none. */
export function versionEdits(stage: PartStage, version: VersionKind, tools: ArrangeTools): VersionEdits {
  const made = madeOf(stage, version, tools);
  if (made.kind === 'impossible') return made;
  const end = endOfFamily(stage);
  const lineEnd = /\r\n|\n|\r/.exec(stage.text)?.[0] ?? '\n';
  const added = { span: { from: end, to: end }, insert: `\n\n${made.text.trimEnd()}`.replace(/\r\n|\n/g, lineEnd) };
  return { kind: 'edits', edits: [...sourceTagEdits(stage), added], warnings: made.warnings };
}

function madeOf(stage: PartStage, version: VersionKind, tools: ArrangeTools) {
  const request = { number: freeNumber(stage), keyShift: 0, tempo: null, pins: 'changes' } as const;
  if (version !== 'backing') return arrange(stage, { ...request, version, thin: 'auto' }, tools);
  const made = backing(stage, request, tools);
  return made.kind === 'impossible' ? made : { ...made, warnings: made.chords === 'suggested' ? [suggested] : [] };
}

const suggested = 'The melody has no chord symbols: the chords with a question mark are suggestions.';

/** The end of the last version that stands after the melody, else of the melody itself; relative to the melody's tune. */
function endOfFamily({ book, index, tree, siblings }: PartStage): number {
  const last = siblings.filter((one) => one.index > index).at(-1);
  return last === undefined ? endOfMusic(tree) : book.tunes[last.index]!.at - book.tunes[index]!.at + endOfMusic(last.tree);
}

/** One more than the highest number of the book. */
const freeNumber = ({ book }: PartStage): number =>
  1 + Math.max(0, ...book.tunes.map(({ tree }) => Number.parseInt(headerOf(tree).number, 10) || 0));
