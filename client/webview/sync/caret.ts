// The caret's note on the sheet: which one it is, where it stands, and bringing it into view.
import type { EngravedNote, SceneNote } from '../../../server/src/engraving/index.ts';
import { svg } from '../dom.ts';
import type { SystemView } from '../system-view.ts';

/** A note on the page. */
export interface PlacedNote {
  readonly view: SystemView;
  readonly note: EngravedNote;
  readonly scene: SceneNote;
}

export const notesOn = (views: readonly SystemView[]): PlacedNote[] =>
  views.flatMap((view) => view.system.notes.flatMap((note) => (note.match === null ? [] : [{ view, note, scene: note.match.note }])));

/** The note that the caret stands in or directly behind, else the next one on; null after the last. */
export function noteAt(notes: readonly PlacedNote[], offset: number): PlacedNote | null {
  let next: PlacedNote | null = null;
  let touched: PlacedNote | null = null;
  for (const placed of notes) {
    const { from, to } = placed.scene;
    if (from <= offset && offset < to) return placed;
    if (offset === to) touched = placed;
    if (from > offset && (next === null || from < next.scene.from)) next = placed;
  }
  return touched ?? next;
}

const beside = 8;

/** A band behind a note, from the staff down to the tab. */
export function markNote(placed: PlacedNote | null, name: 'caret' | 'playing'): void {
  const old = document.querySelector(`.under .${name}`);
  if (placed === null) {
    old?.remove();
    return;
  }
  const { view, note } = placed;
  const xs = note.heads.map((head) => head.x);
  const staff = view.system.staffs[note.staff]!;
  const tab = view.tabs.findLast((each) => each.staff === note.staff);
  const top = Math.min(staff.top - 8, ...note.heads.map((head) => head.y - 8));
  const bottom = Math.max(tab === undefined ? staff.bottom + 8 : tab.bottom + 8, ...note.heads.map((head) => head.y + 8));
  const x = Math.min(...xs) - beside;
  const width = Math.max(...xs) - x + beside;
  const band = old ?? svg('rect', { class: name, rx: 3 });
  for (const [key, value] of Object.entries({ x, y: top, width, height: bottom - top })) band.setAttribute(key, String(value));
  if (band.parentNode !== view.under) view.under.append(band);
}

/** Whether the reader has asked the system or the editor for less movement. */
const isCalm = (): boolean =>
  window.matchMedia('(prefers-reduced-motion: reduce)').matches || document.body.classList.contains('vscode-reduce-motion');

/** Brings a note's system into view if it is not wholly there; never further than needed. */
export function reveal(placed: PlacedNote): void {
  const box = placed.view.element.getBoundingClientRect();
  if (box.top >= 0 && box.bottom <= window.innerHeight) return;
  placed.view.element.scrollIntoView({ block: 'nearest', behavior: isCalm() ? 'auto' : 'smooth' });
}
