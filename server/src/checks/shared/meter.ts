// Meters in messages, and where the tune's fields stand.
import type { Field } from '../../abc/tree/fields.ts';
import type { MusicItem } from '../../abc/tree/items.ts';
import type { TuneTree } from '../../abc/tree/tree.ts';
import { div } from '../../score/fraction.ts';
import type { Bar, Fraction, Score } from '../../score/types.ts';
import { type Span, shifted } from '../../text/span.ts';

/** The meter as written: `4/4`, `C|`, `2+3/8`. */
export function meterText(bar: Pick<Bar, 'meter'>): string {
  if (bar.meter.kind === 'none') return 'none';
  return bar.meter.sign ?? `${bar.meter.beats.join('+')}/${bar.meter.unit}`;
}

/** The lower number of the meter, 4 in free meter. */
export const meterUnit = (bar: Pick<Bar, 'meter'>): number => (bar.meter.kind === 'none' ? 4 : bar.meter.unit);

/** Where the first field with this letter stands in the tune's header; null if it has none. */
export function headerField(tree: TuneTree, letter: string): Span | null {
  const found = tree.lines.slice(0, tree.bodyStart).find(({ line }) => line.kind === 'field' && line.field.letter === letter);
  if (found === undefined || found.line.kind !== 'field') return null;
  return shifted({ from: found.line.field.from, to: found.line.field.to }, found.at);
}

/** A length as the text writes it after a note or rest, in unit note lengths: `` (one), `3`, `3/2`, `/2`. */
export function writtenLength(length: Fraction, unit: Fraction): string {
  const { num, den } = div(length, unit);
  if (den === 1) return num === 1 ? '' : `${num}`;
  return num === 1 ? `/${den}` : `${num}/${den}`;
}

/** The unit note length that holds in the whole tune; null where the body changes it. */
export function steadyUnit(score: Score, tree: TuneTree): Fraction | null {
  const changes = tree.lines.slice(tree.bodyStart).some(({ line }) => {
    if (line.kind === 'field') return isUnit(line.field);
    return line.kind === 'music' && line.items.some(changesUnit);
  });
  return changes ? null : score.unit;
}

const isUnit = (field: Field): boolean => field.letter === 'L';
const changesUnit = (item: MusicItem): boolean => item.kind === 'inline' && isUnit(item.field);
