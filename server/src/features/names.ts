// Names of a tune book that are written in several places: voices, parts, user symbols, tune slugs. Definition, references and renaming rest on this.

import type { PartOrder } from '../abc/tree/fields.ts';
import type { Book, PlacedLine } from '../abc/tree/tree.ts';
import type { Offset, Span } from '../text/span.ts';
import { fieldsOf, type PlacedField, within } from './shared/fields.ts';
import { deepItemsOf, type PlacedItem } from './shared/locate.ts';

export type NameKind = 'voice' | 'part' | 'symbol' | 'tune';

/** One place where a name is written. `tune` is the index in the book; the span is relative to that tune. */
export interface NamePlace extends Span {
  readonly kind: NameKind;
  readonly name: string;
  readonly tune: number;
  /** The place that gives the name its meaning: V: in the header, P: in the body, U:, the source version. */
  readonly defines: boolean;
}

/** Every name written in one tune. */
export function namesOf(book: Book, tune: number): readonly NamePlace[] {
  const tree = book.tunes[tune]?.tree;
  if (tree === undefined) return [];
  const bodyAt = tree.lines[tree.bodyStart]?.at ?? tree.length;
  const fields = fieldsOf(tree.lines).flatMap((field) => namesInField(field, field.at < bodyAt, tune));
  const signs = new Set(fields.filter((one) => one.kind === 'symbol').map((one) => one.name));
  const uses = tree.lines.flatMap((line) => deepItemsOf(line).flatMap((item) => symbolUse(line, item, signs, tune)));
  return [...fields, ...uses].sort((a, b) => a.from - b.from);
}

function namesInField(placed: PlacedField, inHeader: boolean, tune: number): readonly NamePlace[] {
  const { value } = placed.field;
  switch (value.kind) {
    case 'voice':
      return [{ kind: 'voice', name: value.id, tune, defines: inHeader, ...within(placed, value.idSpan) }];
    case 'parts':
      return inHeader
        ? partOrder(placed, value.order, tune)
        : [{ kind: 'part', name: value.label, tune, defines: true, ...labelSpan(placed, value.label) }];
    case 'user-symbol':
      return [{ kind: 'symbol', name: value.sign, tune, defines: true, ...labelSpan(placed, value.sign) }];
    case 'instruction':
      return value.name === 'bullfiddle' ? slugs(placed, tune) : [];
    default:
      return [];
  }
}

function labelSpan(placed: PlacedField, label: string): Span {
  const start = placed.field.textSpan.from + Math.max(0, placed.field.text.indexOf(label));
  return within(placed, { from: start, to: start + label.length });
}

/** Labels in `P:` of the header, each where it stands: letters in the order of the text. */
function partOrder(placed: PlacedField, order: readonly PartOrder[], tune: number): readonly NamePlace[] {
  const labels = new Set(labelsIn(order));
  return [...placed.field.text.matchAll(/[A-Za-z]/g)]
    .filter((match) => labels.has(match[0]))
    .map((match) => {
      const from = placed.field.textSpan.from + match.index;
      return { kind: 'part' as const, name: match[0], tune, defines: false, ...within(placed, { from, to: from + 1 }) };
    });
}

const labelsIn = (order: readonly PartOrder[]): readonly string[] =>
  order.flatMap((one) => (one.kind === 'part' ? [one.label] : labelsIn(one.items)));

function slugs(placed: PlacedField, tune: number): readonly NamePlace[] {
  const { value } = placed.field;
  if (value.kind !== 'instruction') return [];
  const source = value.keyed.some((one) => one.key === 'version' && one.value.startsWith('source'));
  return value.keyed
    .filter((one) => one.key === 'tune' && one.value !== '')
    .map((one) => ({ kind: 'tune' as const, name: one.value, tune, defines: source, ...within(placed, one.valueSpan) }));
}

/** A one-letter sign by its letter: the tree names what it stands for. */
function symbolUse(line: PlacedLine, { item, from, to }: PlacedItem, signs: ReadonlySet<string>, tune: number): readonly NamePlace[] {
  const sign = line.line.text.slice(from - line.at, to - line.at);
  const used = item.kind === 'decoration' && item.form === 'shorthand' && signs.has(sign);
  return used ? [{ kind: 'symbol', name: sign, tune, defines: false, from, to }] : [];
}

/** The name at an offset of a tune; null if there is none. */
export const nameAt = (book: Book, tune: number, at: Offset): NamePlace | null =>
  namesOf(book, tune).find((place) => place.from <= at && at <= place.to) ?? null;

/** All places of the same name: in the tune, for a slug in the whole book. */
export function placesOf(book: Book, name: NamePlace): readonly NamePlace[] {
  const tunes = name.kind === 'tune' ? book.tunes.map((_, i) => i) : [name.tune];
  return tunes.flatMap((tune) => namesOf(book, tune)).filter((place) => place.kind === name.kind && place.name === name.name);
}
