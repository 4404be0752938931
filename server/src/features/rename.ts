// Giving a voice, part, user symbol or tune slug another name everywhere.
import type { TreeStage } from '../arrangement/types.ts';
import type { Edit, Offset } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { type NameKind, type NamePlace, nameAt, namesOf, placesOf } from './names.ts';

export type Renaming =
  | { readonly kind: 'edits'; readonly byTune: readonly { readonly tune: number; readonly edits: readonly Edit[] }[] }
  | { readonly kind: 'refused'; readonly message: string };

const shapes: Readonly<Record<NameKind, { readonly allowed: RegExp; readonly says: string }>> = {
  voice: { allowed: /^[\w.-]+$/, says: 'A voice is named by letters, digits, dots and hyphens.' },
  part: { allowed: /^[A-Za-z]$/, says: 'A part is named by one letter.' },
  symbol: { allowed: /^[H-Wh-w~]$/, says: 'A sign of your own is one of the letters H to W and h to w, or ~.' },
  tune: { allowed: /^[\w.-]+$/, says: 'A tune is named by letters, digits, dots and hyphens.' },
};

/** What would be renamed at an offset; null where nothing can be. */
export const renameTarget: Feature<'tree', Offset, NamePlace | null> = {
  needs: 'tree',
  answer: ({ book, index }, at) => nameAt(book, index, at),
};

export const rename: Feature<'tree', { readonly at: Offset; readonly name: string }, Renaming> = {
  needs: 'tree',
  answer(stage, { at, name }) {
    const old = nameAt(stage.book, stage.index, at);
    if (old === null) return { kind: 'refused', message: 'Only voices, parts, signs of your own and tune names can be renamed.' };
    const { allowed, says } = shapes[old.kind];
    if (!allowed.test(name)) return { kind: 'refused', message: says };
    if (name !== old.name && isTaken(stage, old, name))
      return { kind: 'refused', message: `There is already a ${old.kind} ${name}. Choose another name.` };
    return { kind: 'edits', byTune: editsByTune(placesOf(stage.book, old), name) };
  },
};

function isTaken({ book }: TreeStage, old: NamePlace, name: string): boolean {
  const tunes = old.kind === 'tune' ? book.tunes.map((_, i) => i) : [old.tune];
  return tunes.some((tune) => namesOf(book, tune).some((place) => place.kind === old.kind && place.name === name));
}

function editsByTune(places: readonly NamePlace[], name: string): readonly { readonly tune: number; readonly edits: readonly Edit[] }[] {
  const tunes = [...new Set(places.map((place) => place.tune))];
  return tunes.map((tune) => ({
    tune,
    edits: places.filter((place) => place.tune === tune).map(({ from, to }) => ({ span: { from, to }, insert: name })),
  }));
}
