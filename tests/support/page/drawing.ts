// Draws a tune text in Node, system by system, keeping pictures between drawings as the page does.
import { readBook } from '../../../server/src/abc/index.ts';
import { headroom, tabRoom } from '../../../server/src/drawing/index.ts';
import {
  drawTune,
  keptByKey,
  type Measure,
  parse,
  prepare,
  type SheetItem,
  type SheetSystem,
  toSceneNotes,
} from '../../../server/src/engraving/index.ts';
import { readScore } from '../../../server/src/score/index.ts';
import type { VoiceId } from '../../../server/src/score/types.ts';

export type Item = SheetItem;

/** Texts by a fixed rule, good for all but true widths of words: letters are 0.56 of their size wide. */
const measure: Measure = (said, attributes) => {
  const size = Number(attributes['font-size']);
  const letters = Math.max(...said.split('\n').map((line) => line.length));
  return { width: letters * size * 0.56, height: size + 2 };
};

/** Tune 0 of a book, parsed to be drawn. Every voice counts as a bass part, or those that are told. */
export function drawable(text: string, basses?: readonly VoiceId[]) {
  const book = readBook(text);
  const score = readScore(book.header, book.tunes[0]!.tree);
  const parsed = parse(prepare(book, 0), toSceneNotes(score));
  if (!parsed.ok) throw new Error(parsed.failed.message);
  const options = { width: 740, tabRoom, headroom, bassVoices: basses ?? score.voices.map((voice) => voice.id) };
  const draw = (kept: readonly Item[]): Item[] => [...drawTune(parsed.value, options, keptByKey(kept), measure)];
  return { tune: parsed.value.tune, draw };
}

/** Draws tune 0 of a book; `kept` are the items of a drawing before. */
export const drawText = (text: string, kept: readonly Item[] = [], basses?: readonly VoiceId[]): Item[] =>
  drawable(text, basses).draw(kept);

export const systemsOf = (items: readonly Item[]): SheetSystem[] => items.filter((item) => item.kind === 'system');
