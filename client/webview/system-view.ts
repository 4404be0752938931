// One place for a system on the page: its picture, what can be hit on it, and how it takes new marks and pictures without being built anew.
import {
  drawFindings,
  drawSystem,
  extentOf,
  type Look,
  type PlacedTab,
  placeTabs,
  type Shape,
  voiced,
} from '../../server/src/drawing/index.ts';
import type { EngravedSystem, KeptSystem, SceneFinding, SheetSystem } from '../../server/src/engraving/index.ts';
import type { Plan } from '../messages.ts';
import { html, svg } from './dom.ts';
import { makeMarks } from './marks.ts';
import { paintFinding } from './paint.ts';
import { paintPicture, repaintPicture } from './picture.ts';
import { factsOf } from './seen.ts';

/** What is put on a system beside its engraving. */
export interface Dress {
  readonly plans: readonly Plan[];
  readonly findings: readonly SceneFinding[];
  readonly look: Look;
  /** Width of the staff in units. */
  readonly width: number;
}

export interface SystemView {
  /** What is shown: the drawing, which may be of an earlier text. */
  readonly kept: KeptSystem;
  readonly element: HTMLElement;
  readonly picture: SVGSVGElement;
  readonly under: SVGGElement;
  readonly marks: SVGGElement;
  /** What the present text makes of it. */
  readonly system: EngravedSystem;
  readonly tabs: readonly PlacedTab[];
  /** The shapes with their places in the present text; drawn when asked for. */
  shapes(): readonly Shape[];
  /** Names the system by its place on the sheet, from 1. */
  number(at: number): void;
  /** Brings the view to the present drawing, text, plans and findings. */
  update(item: SheetSystem, dress: Dress): void;
}

const air = 6;
const margin = 4;

/** Frames a fresh picture. */
export function makeView(item: SheetSystem): SystemView {
  const under = svg('g', { class: 'under', 'aria-hidden': 'true' });
  const marks = svg('g', { class: 'marks' });
  let painted = paintPicture(item.kept.drawn.picture);
  const engraving = painted.element;
  engraving.setAttribute('class', 'engraving');
  engraving.setAttribute('aria-hidden', 'true');
  const picture = svg('svg', { role: 'group' }, under, engraving, marks);
  const element = html('div', { class: 'system' }, picture);
  const showMarks = makeMarks(marks);
  let { kept, system } = item;
  let dress: Dress | null = null;
  let tabs: readonly PlacedTab[] = [];
  let shapes: readonly Shape[] | null = null;
  let place = 0;
  let facts = '';
  let bandFacts = '';

  const draw = (): readonly Shape[] => {
    shapes ??= dress === null ? [] : voiced(system, drawSystem(system, dress.plans, dress.look), dress.findings, tabs);
    return shapes;
  };

  /** The wrapper has the picture's proportions, so that the page may leave out what is far from view. */
  function frame(width: number): void {
    const { top, bottom } = extentOf(system, tabs, air);
    const wide = Math.max(width, system.reach) + 2 * margin;
    const box = `${-margin} ${top.toFixed(1)} ${wide.toFixed(1)} ${(bottom - top).toFixed(1)}`;
    // Set again, even the same box would have all of the picture laid out anew.
    if (picture.getAttribute('viewBox') === box) return;
    picture.setAttribute('viewBox', box);
    element.style.aspectRatio = `${wide.toFixed(1)} / ${(bottom - top).toFixed(1)}`;
  }

  function markFindings(findings: readonly SceneFinding[]): void {
    const byStaff = system.staffs.map((_, staff) => tabs.find((tab) => tab.staff === staff) ?? null);
    const bands = findings.length === 0 ? [] : drawFindings(system, findings, byStaff);
    const now = JSON.stringify(bands, (key, value) => (key === 'source' || key === 'note' ? undefined : value));
    if (now === bandFacts) return;
    for (const old of under.querySelectorAll('.finding')) old.remove();
    under.prepend(...bands.map(paintFinding));
    bandFacts = now;
  }

  function showPicture(next: KeptSystem): void {
    if (next === kept) return;
    // Both are the library's whole drawing, so the element stays.
    painted = repaintPicture(painted, next.drawn.picture);
    kept = next;
    facts = '';
  }

  return {
    get kept() {
      return kept;
    },
    element,
    picture,
    under,
    marks,
    get system() {
      return system;
    },
    get tabs() {
      return tabs;
    },
    shapes: draw,
    number(at) {
      if (at !== place) picture.setAttribute('aria-label', `System ${at}`);
      place = at;
    },
    update(next, nextDress) {
      if (next.system === system && nextDress === dress) return;
      showPicture(next.kept);
      system = next.system;
      dress = nextDress;
      shapes = null;
      const now = factsOf(system, dress.plans, dress.findings, dress.look);
      if (now !== facts) {
        tabs = placeTabs(system, dress.plans, dress.look);
        showMarks(draw());
        frame(dress.width);
        facts = now;
      }
      markFindings(dress.findings);
    },
  };
}
