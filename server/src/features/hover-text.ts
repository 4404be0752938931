// What a word of the notation means: fields, decorations, one-letter signs, keys of I:bullfiddle.
import type { MusicItem } from '../abc/tree/items.ts';
import type { PlacedLine } from '../abc/tree/tree.ts';
import { declarationKeys } from '../arrangement/index.ts';
import type { Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import type { Hover } from './hover.ts';
import { fieldsOf, type PlacedField, within } from './shared/fields.ts';
import { itemAt, lineAt } from './shared/locate.ts';
import { decorationEntries, shorthandEntries } from './vocabulary/decorations.ts';
import { entryOf } from './vocabulary/entry.ts';
import { fieldEntries } from './vocabulary/fields.ts';
import { instructionEntries } from './vocabulary/instructions.ts';

/** The question is an offset. */
export const textHover: Feature<'text', number, Hover | null> = {
  needs: 'text',
  answer(view, at) {
    const line = lineAt(view.tree.lines, at);
    if (line === null) return null;
    const field = fieldsOf([line]).find((one) => one.from <= at && at <= one.to);
    return field === undefined ? decorationHover(line, at) : fieldHover(field, at);
  },
};

function fieldHover(placed: PlacedField, at: number): Hover | null {
  const { value } = placed.field;
  if (value.kind === 'instruction') {
    const keyed =
      value.name === 'bullfiddle'
        ? value.keyed.find(({ keySpan, valueSpan }) => placed.at + keySpan.from <= at && at <= placed.at + valueSpan.to)
        : undefined;
    const key = declarationKeys.find((one) => one.key === keyed?.key);
    if (keyed && key)
      return {
        ...within(placed, { from: keyed.keySpan.from, to: keyed.valueSpan.to }),
        text: [`**${key.key}**: ${key.meaning}`, ...valuesLine(key.values)],
      };
    const entry = entryOf(instructionEntries, value.name);
    return entry === null ? null : { from: placed.from, to: placed.to, text: [`**${entry.word}**: ${entry.meaning}`] };
  }
  const entry = entryOf(fieldEntries, placed.field.letter);
  const onLetter = at <= placed.at + placed.field.textSpan.from;
  return entry === null || !onLetter ? null : { from: placed.from, to: placed.to, text: [`**${entry.word}:** ${entry.meaning}`] };
}

const valuesLine = (values: readonly string[]): readonly string[] => (values.length === 0 ? [] : [`Values: ${values.join(', ')}.`]);

function decorationHover(line: PlacedLine, at: number): Hover | null {
  const found = markAt(line, at);
  if (found === null || found.item.kind !== 'decoration') return null;
  const entry =
    entryOf(found.item.form === 'named' ? decorationEntries : shorthandEntries, found.item.name) ??
    entryOf(decorationEntries, found.item.name);
  return entry === null ? null : { from: found.from, to: found.to, text: [`**${entry.word}**: ${entry.meaning}`] };
}

function markAt(line: PlacedLine, at: number): (Span & { readonly item: MusicItem }) | null {
  if (line.line.kind === 'music') return itemAt(line, at);
  if (line.line.kind !== 'symbols') return null;
  const marks = line.line.symbols
    .flatMap((symbol) => symbol.marks)
    .map((item) => ({ item, from: line.at + item.from, to: line.at + item.to }));
  return marks.find((mark) => mark.from <= at && at <= mark.to) ?? null;
}
