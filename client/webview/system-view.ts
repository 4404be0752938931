// One system on the page: its svg, what can be hit on it, and how it takes new marks without being built anew.
import { drawFindings, drawSystem, extentOf, type Look, type PlacedTab, placeTabs, type Shape } from '../../server/src/drawing/index.ts';
import type { EngravedSystem, KeptSystem, SceneFinding, SheetSystem } from '../../server/src/engraving/index.ts';
import type { Plan } from '../messages.ts';
import { svg } from './dom.ts';
import { paintFinding, paintShape } from './paint.ts';

export interface SystemView {
  readonly kept: KeptSystem<SVGGElement>;
  readonly element: SVGSVGElement;
  /** What the present text and plan make of it. */
  system: EngravedSystem;
  shapes: readonly Shape[];
  tabs: readonly PlacedTab[];
  readonly under: SVGGElement;
  readonly marks: SVGGElement;
  /** What was painted last, to tell whether anything is new. */
  painted: { marks: string; findings: string };
}

const air = 6;
const margin = 4;

/** Frames a fresh picture. */
export function makeView(item: SheetSystem<SVGGElement>): SystemView {
  const under = svg('g', { class: 'under', 'aria-hidden': 'true' });
  const marks = svg('g', { class: 'marks' });
  const element = svg('svg', { class: 'system', role: 'group' }, under, item.kept.picture, marks);
  const painted = { marks: '', findings: '' };
  return { kept: item.kept, element, system: item.system, shapes: [], tabs: [], under, marks, painted };
}

/** Places in the text change with every key; the picture only with what is seen. */
const seen = (shapes: readonly Shape[]): string =>
  JSON.stringify(shapes, (key, value) => (key === 'source' || key === 'note' ? undefined : value));

function frame(view: SystemView, width: number): void {
  const { top, bottom } = extentOf(view.system, view.tabs, air);
  const right = Math.max(width, view.system.right) + margin;
  view.element.setAttribute('viewBox', `${-margin} ${top.toFixed(1)} ${(right + margin).toFixed(1)} ${(bottom - top).toFixed(1)}`);
}

/** Brings a view to the present text, plans and findings. `width` is the staff's, in units. */
export function updateView(
  view: SystemView,
  system: EngravedSystem,
  plans: readonly Plan[],
  findings: readonly SceneFinding[],
  look: Look,
  width: number,
): void {
  view.system = system;
  view.tabs = placeTabs(system, plans, look);
  view.shapes = drawSystem(system, plans, look);
  const marks = seen(view.shapes);
  if (marks !== view.painted.marks) {
    view.marks.replaceChildren(...view.shapes.map(paintShape));
    view.painted.marks = marks;
    frame(view, width);
  }
  const byStaff = system.staffs.map((_, staff) => view.tabs.find((tab) => tab.staff === staff) ?? null);
  const bands = drawFindings(system, findings, byStaff);
  const told = seen(bands);
  if (told !== view.painted.findings) {
    for (const old of view.under.querySelectorAll('.finding')) old.remove();
    view.under.prepend(...bands.map(paintFinding));
    view.painted.findings = told;
  }
}
