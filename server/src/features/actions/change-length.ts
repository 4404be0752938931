// Makes the selected notes and rests twice or half as long, in the text.
import type { MusicItem, WrittenLength } from '../../abc/tree/items.ts';
import type { ScoreStage } from '../../arrangement/types.ts';
import { fraction } from '../../score/fraction.ts';
import type { Edit, Span } from '../../text/span.ts';
import { itemsOf, type PlacedItem } from '../shared/locate.ts';
import type { Action } from './action.ts';

export const changeLength: Action<'score'> = {
  id: 'change-length',
  needs: 'score',
  offers(stage, selection) {
    if (lengthsIn(stage, selection).length === 0) return [];
    return [
      { variant: 'double', title: 'Make twice as long' },
      { variant: 'halve', title: 'Make half as long' },
    ];
  },
  edits(stage, selection, variant) {
    const by = variant === 'double' ? fraction(2, 1) : fraction(1, 2);
    return lengthsIn(stage, selection).map(({ from, to, length }): Edit => {
      const { num, den } = fraction(length.num * by.num, length.den * by.den);
      return { span: { from, to }, insert: lengthText(num, den) };
    });
  },
};

/** A length as written, with its place (empty where none is written). */
interface PlacedLength extends Span {
  readonly length: WrittenLength;
}

function lengthsIn({ tree, text }: ScoreStage, selection: Span): readonly PlacedLength[] {
  const caret = selection.from === selection.to;
  const items = tree.lines.filter(({ at, line }) => at <= selection.to && selection.from <= at + line.text.length).flatMap(itemsOf);
  const touched = items.filter((one) =>
    caret ? one.from <= selection.from && selection.from <= one.to : one.from < selection.to && selection.from < one.to,
  );
  const lengths = touched.flatMap((one) => lengthOf(one, text) ?? []);
  return caret ? lengths.slice(-1) : lengths;
}

/** Whole-bar rests count bars and are left alone. */
function lengthOf({ item, from, to }: PlacedItem, text: string): PlacedLength | null {
  if (!hasLength(item)) return null;
  const written = /(?:\d+(?:\/+\d*)?|\/+\d*)?$/.exec(text.slice(from, to))![0];
  return { from: to - written.length, to, length: item.length };
}

const hasLength = (item: MusicItem): item is Extract<MusicItem, { kind: 'note' | 'rest' | 'chord' }> =>
  item.kind === 'note' || item.kind === 'chord' || (item.kind === 'rest' && (item.sign === 'z' || item.sign === 'x'));

const lengthText = (num: number, den: number): string =>
  `${num === 1 ? '' : num}${den === 1 ? '' : den === 2 && num === 1 ? '/' : `/${den}`}`;
