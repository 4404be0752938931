// From a click on the sheet to the place in the text.
import type { SystemView } from '../system-view.ts';
import { hit, type Target, targetsOf } from './targets.ts';

const reach = 7;

/** What was clicked, and on which system; null for empty paper. */
export function clicked(views: readonly SystemView[], event: MouseEvent): { readonly view: SystemView; readonly target: Target } | null {
  const element = event.target instanceof Element ? event.target.closest('.system') : null;
  const view = views.find((each) => each.element === element);
  const matrix = view?.picture.getScreenCTM();
  if (view === undefined || matrix == null) return null;
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  const target = hit(targetsOf(view.system, view.shapes()), point.x, point.y, reach);
  return target === null ? null : { view, target };
}
