// From a click on the sheet to the place in the text.
import type { Scene } from '../../messages.ts';
import type { SystemView } from '../system-view.ts';
import { hit, type Target, targetsOf } from './targets.ts';
import { wordsAt } from './words.ts';

const reach = 7;

/** What was clicked; null for empty paper. */
export function clicked(scene: Scene, views: readonly SystemView[], event: MouseEvent): Target | null {
  const element = event.target instanceof Element ? event.target.closest('.system') : null;
  const view = views.find((each) => each.element === element);
  const matrix = view?.picture.getScreenCTM();
  if (view === undefined || matrix == null) return null;
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  const words = event.target instanceof Element ? event.target.closest('.engraving text[data-name]') : null;
  // Verses are lines of one text.
  const shown = event.target instanceof SVGTSpanElement ? event.target.textContent : words?.textContent;
  const target = hit(targetsOf(view.system, view.shapes()), point.x, point.y, reach);
  return words === null ? target : (wordsAt(scene, view.system, words.getAttribute('data-name')!, shown ?? '', point.x) ?? target);
}
