// The fields of a tune or file header wherever they stand: on lines of their own, as directives, or inline.
import type { Field } from '../../abc/tree/fields.ts';
import type { PlacedLine } from '../../abc/tree/tree.ts';
import type { Span } from '../../text/span.ts';

/** A field with the offset its spans count from. */
export interface PlacedField extends Span {
  readonly at: number;
  readonly field: Field;
  readonly where: 'line' | 'directive' | 'inline';
}

/** All fields of the lines, in the order of the text. */
export function fieldsOf(lines: readonly PlacedLine[]): readonly PlacedField[] {
  return lines.flatMap(({ at, line }): readonly PlacedField[] => {
    if (line.kind === 'field') return [placed(at, line.field, 'line')];
    if (line.kind === 'directive') return [placed(at, line.field, 'directive')];
    if (line.kind !== 'music') return [];
    return line.items.flatMap((item) =>
      item.kind === 'inline' ? [{ ...placed(at, item.field, 'inline'), from: at + item.from, to: at + item.to }] : [],
    );
  });
}

const placed = (at: number, field: Field, where: PlacedField['where']): PlacedField => ({
  at,
  field,
  where,
  from: at + field.from,
  to: at + field.to,
});

/** The span, moved to the tune, of a part of a field. */
export const within = (placed: PlacedField, span: Span): Span => ({ from: placed.at + span.from, to: placed.at + span.to });
