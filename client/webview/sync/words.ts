// Words under the pointer: which quoted text before which note, or which syllable of a note, they are.
import { type EngravedSystem, type SceneNote, sourceOf } from '../../../server/src/engraving/index.ts';
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

interface NearNote {
  readonly x: number;
  readonly note: SceneNote;
}

/** Notes by their distance from x. */
const notesNear = (system: EngravedSystem, x: number): NearNote[] =>
  system.notes
    .flatMap(({ heads, match }) => (match === null || heads[0] === undefined ? [] : [{ x: heads[0].x, note: match.note }]))
    .sort((a, b) => Math.abs(a.x - x) - Math.abs(b.x - x));

const targetAt = (x: number, { from, to }: { readonly from: number; readonly to: number }): Target => ({
  x1: x,
  x2: x,
  y1: 0,
  y2: 0,
  from,
  to,
  note: null,
  head: 0,
});

/** The quoted text that reads as what was hit, nearest before the nearest note. */
function quotedAt(scene: Scene, near: NearNote, shown: string, x: number): Target | null {
  const same = quotedTexts(scene).filter(({ from, text }) => from >= 0 && plain(shown).includes(text));
  const before = same.filter(({ from }) => from <= near.note.from).at(-1) ?? same[0];
  return before === undefined ? null : targetAt(x, before);
}

/** What the library prints behind a syllable is not the syllable's. */
const syllable = (text: string): string => text.trim().replace(/[-_]+$/, '');

/** The syllable that reads as what was hit, at the nearest note that has it. */
function syllableAt(near: readonly NearNote[], shown: string, x: number): Target | null {
  const wanted = syllable(shown);
  const words = near.flatMap(({ note }) => note.words);
  const found = words.find(({ text }) => syllable(text) === wanted);
  return found === undefined ? null : targetAt(x, found);
}

/** The place in the text of words on the picture, of the library's kind `name`; null for those that have none. */
export function wordsAt(scene: Scene, system: EngravedSystem, name: string, shown: string, x: number): Target | null {
  const near = notesNear(system, x);
  if (near[0] === undefined) return null;
  if (name === 'lyric') return syllableAt(near, shown, x);
  return quotedNames.has(name) ? quotedAt(scene, near[0], shown, x) : null;
}
