// Addresses and included files that can be opened.
import type { Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { fieldsOf, type PlacedField, within } from './shared/fields.ts';

export type Link = Span & ({ readonly kind: 'address'; readonly target: string } | { readonly kind: 'file'; readonly target: string });

/** There is one question: the whole view. Files are named as the text names them, to be sought in the folder. */
export const links: Feature<'text', null, readonly Link[]> = {
  needs: 'text',
  answer: ({ tree }) => fieldsOf(tree.lines).flatMap((field) => [...addresses(field), ...includes(field)]),
};

function addresses(placed: PlacedField): readonly Link[] {
  const { text, textSpan } = placed.field;
  return [...text.matchAll(/https?:\/\/[^\s"<>]+[^\s"<>.,;:!?)]/g)].map((match) => {
    const from = textSpan.from + match.index;
    return { kind: 'address', target: match[0], ...within(placed, { from, to: from + match[0].length }) };
  });
}

function includes(placed: PlacedField): readonly Link[] {
  const { value, textSpan } = placed.field;
  if (value.kind !== 'instruction' || value.name !== 'abc-include' || value.rest === '') return [];
  const from = textSpan.from + placed.field.text.lastIndexOf(value.rest);
  return [{ kind: 'file', target: value.rest, ...within(placed, { from, to: from + value.rest.length }) }];
}
