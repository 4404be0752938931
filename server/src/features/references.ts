// Where a name is written, and where it is given its meaning.
import type { Offset } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { type NamePlace, nameAt, placesOf } from './names.ts';

/** The question is an offset; places may lie in other tunes of the book. */
export const references: Feature<'tree', Offset, readonly NamePlace[]> = {
  needs: 'tree',
  answer({ book, index }, at) {
    const name = nameAt(book, index, at);
    return name === null ? [] : placesOf(book, name);
  },
};

/** The question is an offset. The first place stands in for a name that nothing defines. */
export const definition: Feature<'tree', Offset, readonly NamePlace[]> = {
  needs: 'tree',
  answer(stage, at, settings) {
    const places = references.answer(stage, at, settings);
    const defining = places.filter((place) => place.defines);
    return defining.length > 0 ? defining : places.slice(0, 1);
  },
};
