// Ties drawn heads to the scene's notes: by place in the text, then by pitch inside a chord.
import type { PlacedNote } from './coordinates.ts';
import type { LibElement } from './library.ts';
import { sourceSpan } from './offsets.ts';
import type { EngravedNote, EngravingText, SceneNote } from './types.ts';

/** The scene's notes, sorted by place. */
export type NoteIndex = readonly SceneNote[];

export const noteIndex = (notes: readonly SceneNote[]): NoteIndex => [...notes].sort((a, b) => a.from - b.from);

function firstFrom(index: NoteIndex, from: number): number {
  let low = 0;
  let high = index.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (index[middle]!.from < from) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Notes that begin inside the element's range; the library's range may begin earlier, with space or marks. */
export function notesIn(element: LibElement, index: NoteIndex, text: EngravingText): SceneNote[] {
  const span = sourceSpan(text, element.startChar, element.endChar);
  const notes: SceneNote[] = [];
  if (span === null) return notes;
  for (let i = firstFrom(index, span.from); i < index.length && index[i]!.from < span.to; i++) notes.push(index[i]!);
  return notes;
}

/** For each drawn head (sorted upwards) the index of the scene's head; null if the counts differ. */
function headOrder(drawn: number, note: SceneNote): readonly number[] | null {
  if (note.heads.length !== drawn) return null;
  return note.heads.map((_, i) => i).sort((a, b) => note.heads[a]!.step - note.heads[b]!.step || a - b);
}

/** A chord of graces is drawn as single graces, one after the other in the text's order. */
function graceNotes(placed: PlacedNote, graces: readonly SceneNote[]): EngravedNote[] {
  const heads = graces.flatMap((note) => note.heads.map((_, head) => ({ note, heads: [head] })));
  const agreed = heads.length === placed.graces.length;
  const { staff, layer } = placed;
  return placed.graces.map((head, i) => ({
    kind: 'grace',
    staff,
    layer,
    heads: [head],
    stem: null,
    beam: null,
    match: agreed ? heads[i]! : null,
  }));
}

/** Of the elements that one macro call stands for, which in the order of the text each is; an element alone is not in it. */
export type Turns = ReadonlyMap<LibElement, number>;

/** Notes of a macro all have the place of its call, and are told apart by their order. */
export function turnsOf(elements: Iterable<LibElement>, index: NoteIndex, text: EngravingText): Turns {
  const turns = new Map<LibElement, number>();
  const seen = new Map<SceneNote, number>();
  for (const element of elements) {
    if (element.pitches === undefined) continue;
    const notes = notesIn(element, index, text).filter((note) => note.kind === 'note');
    const first = notes[0];
    if (first === undefined || notes.length < 2 || notes.some((note) => note.from !== first.from)) continue;
    const turn = seen.get(first) ?? 0;
    turns.set(element, turn);
    seen.set(first, turn + 1);
  }
  return turns;
}

/** The note that an element is: the only one in its range, or the one whose turn it is in a macro. */
function noteOf(notes: readonly SceneNote[], turn: number | undefined): SceneNote | null {
  if (turn !== undefined) return notes[turn] ?? null;
  return notes.length === 1 ? notes[0]! : null;
}

/** What the drawn notes are matched with. */
export interface Matching {
  readonly notes: NoteIndex;
  readonly text: EngravingText;
  readonly turns: Turns;
}

/** The engraved notes of one element: its graces, then itself. */
export function matchNotes(placed: PlacedNote, element: LibElement, matching: Matching): EngravedNote[] {
  const found = notesIn(element, matching.notes, matching.text);
  const notes = found.filter((note) => note.kind === 'note');
  const graces = found.filter((note) => note.kind === 'grace');
  const own = placed.whole ? noteOf(notes, matching.turns.get(element)) : null;
  const heads = own === null ? null : headOrder(placed.heads.length, own);
  const { staff, layer, stem, beam } = placed;
  const match = own !== null && heads !== null ? { note: own, heads } : null;
  return [...graceNotes(placed, graces), { kind: 'note', staff, layer, heads: placed.heads, stem, beam, match }];
}
