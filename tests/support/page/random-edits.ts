// Random edits of a tune, drawn with kept pictures and drawn fresh: both sheets must be the same.
import { isDeepStrictEqual } from 'node:util';
import { seeded } from '../random.ts';
import { drawText, type Item } from './drawing.ts';

const pieces = [
  'G,2',
  '(',
  ')',
  '-',
  '|',
  '!4!',
  '"Am"',
  'z2',
  '{E}',
  '[CE]',
  '(3',
  '(5:4:5',
  '!open!',
  '!slide!',
  '!<(!',
  '!<)!',
  '"^a text that is longer than what most lines have left"',
  '\n',
  ' ',
  '^F',
  '!>!',
  '[K:D]',
  '%',
  '&',
  '!p!',
  '>',
  '$',
  '!',
];

/** Everything that is seen and everything that points into the text. */
const told = (items: readonly Item[]) =>
  items.map((item) => (item.kind === 'words' ? item : { picture: item.kept.drawn.picture, system: item.system }));

/** The texts at which the patched sheet differs from the fresh one; none is right. Edits begin at `from`. */
export function editRandomly(tune: string, from: number, seed: number, edits: number): string[] {
  const random = seeded(seed);
  const wrong: string[] = [];
  let text = tune;
  let kept = drawText(text);
  for (let i = 0; i < edits; i++) {
    const at = from + random.below(Math.max(1, text.length - from));
    const gone = random.below(10) < 4 ? 1 + random.below(3) : 0;
    const next = text.slice(0, at) + (random.below(10) < 7 ? random.pick(pieces) : '') + text.slice(at + gone);
    let fresh: Item[];
    try {
      fresh = drawText(next);
    } catch {
      continue; // The library gives up on this text: the page keeps its last picture.
    }
    kept = drawText(next, kept);
    if (!isDeepStrictEqual(told(kept), told(fresh))) wrong.push(next);
    text = random.below(5) === 0 ? tune : next;
  }
  return wrong;
}
