// Chord symbols and annotations under the pointer: which quoted text before which note they are.
import { type EngravedSystem, sourceOf } from '../../../server/src/engraving/index.ts';
import type { Scene } from '../../messages.ts';
import type { Target } from './targets.ts';

const quotedNames = new Set(['chord', 'annotation']);

/** Spelled alike whether with the signs of the text or with those that are printed. */
const plain = (text: string): string => text.replaceAll('♭', 'b').replaceAll('♯', '#').replaceAll('\n', '').trim();

/** Where quoted texts stand in the library's text, as spans of the tune. */
function quotedTexts(scene: Scene): { readonly from: number; readonly to: number; readonly text: string }[] {
  return [...scene.engraving.text.matchAll(/"([^"\n]*)"/g)].map((found) => {
    const from = sourceOf(scene.engraving, found.index);
    return { from, to: from + found[0].length, text: plain(found[1]!.replace(/^[\^_<>@]/, '')) };
  });
}

/** The quoted text that reads as what was hit, nearest before the note that stands nearest in x; null for other words. */
export function wordsAt(scene: Scene, system: EngravedSystem, name: string, shown: string, x: number): Target | null {
  if (!quotedNames.has(name)) return null;
  const notes = system.notes.flatMap(({ heads, match }) =>
    match === null || heads[0] === undefined ? [] : [{ x: heads[0].x, from: match.note.from }],
  );
  if (notes.length === 0) return null;
  const note = notes.reduce((best, each) => (Math.abs(each.x - x) < Math.abs(best.x - x) ? each : best));
  const same = quotedTexts(scene).filter(({ from, text }) => from >= 0 && plain(shown).includes(text));
  const before = same.filter(({ from }) => from <= note.from).at(-1) ?? same[0];
  return before === undefined ? null : { x1: x, x2: x, y1: 0, y2: 0, from: before.from, to: before.to, note: null, head: 0 };
}
