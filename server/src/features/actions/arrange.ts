// Adds a low or high version after a melody.
import { arrange } from '../../arrangement/index.ts';
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
    const request = {
      version: variant === 'high' ? 'high' : 'low',
      number: freeNumber(stage),
      keyShift: 0,
      tempo: null,
      thin: 'auto',
      pins: 'changes',
    } as const;
    const arranged = arrange(stage, request, tools);
    if (arranged.kind === 'impossible') return [];
    const end = endOfMusic(stage.tree);
    const lineEnd = /\r\n|\n|\r/.exec(stage.text)?.[0] ?? '\n';
    return [{ span: { from: end, to: end }, insert: `\n\n${arranged.text.trimEnd()}`.replace(/\r\n|\n/g, lineEnd) }];
  },
};

/** One more than the highest number of the book. */
const freeNumber = ({ book }: PartStage): number =>
  1 + Math.max(0, ...book.tunes.map(({ tree }) => Number.parseInt(headerOf(tree).number, 10) || 0));
