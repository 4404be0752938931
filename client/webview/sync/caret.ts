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

/** How far to scroll so that `from` to `to` lies within `least` to `most`; what is larger shows its beginning. */
function way(from: number, to: number, least: number, most: number): number {
  if (from < least) return from - least;
  return to > most ? Math.min(to - most, from - least) : 0;
}

/** Room to the sides of a note that is brought into view, in pixels. */
const sideways = 48;

/** Brings a note's system, and on a sheet wider than the panel the note, into view; never further than needed. */
export function reveal({ view, note }: PlacedNote): void {
  const { top, bottom } = view.element.getBoundingClientRect();
  const { x } = new DOMPoint(note.heads[0]?.x ?? 0, 0).matrixTransform(view.picture.getScreenCTM() ?? undefined);
  const { clientWidth, clientHeight } = document.documentElement;
  const covered = document.querySelector<HTMLElement>('aside.board')?.offsetHeight ?? 0;
  const by = { left: way(x - sideways, x + sideways, 0, clientWidth), top: way(top, bottom, 0, clientHeight - covered) };
  if (by.left !== 0 || by.top !== 0) window.scrollBy({ ...by, behavior: isCalm() ? 'auto' : 'smooth' });
}
