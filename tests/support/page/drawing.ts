// Draws a tune text in Node, system by system, keeping pictures between drawings as the page does.
import { readBook } from '../../../server/src/abc/index.ts';
import { headroom, tabRoom } from '../../../server/src/drawing/index.ts';
import {
  drawTune,
  keptByKey,
  parse,
  prepare,
  type SheetItem,
  type SheetSystem,
  type Studio,
  toSceneNotes,
} from '../../../server/src/engraving/index.ts';
import { readScore } from '../../../server/src/score/index.ts';

export type Item = SheetItem<string>;

/** Draws tune 0 of a book; `kept` are the items of a drawing before. Every voice counts as a bass part. */
export function drawText(text: string, studio: Studio<string>, kept: readonly Item[] = []): Item[] {
  const book = readBook(text);
  const score = readScore(book.header, book.tunes[0]!.tree);
  const parsed = parse(prepare(book, 0), toSceneNotes(score));
  if (!parsed.ok) throw new Error(parsed.failed.message);
  const options = { width: 740, tabRoom, headroom, bassVoices: score.voices.map((voice) => voice.id) };
  return [...drawTune(parsed.value, options, keptByKey(kept), studio)];
}

export const systemsOf = (items: readonly Item[]): SheetSystem<string>[] => items.filter((item) => item.kind === 'system');
