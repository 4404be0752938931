// Single bars of an engraved tune as pictures in a page: each shows a stretch of its system, which stands in the page once.
import type { BarSide } from '../../arrangement/compare.ts';
import { engravedSystems, type PrintedSystem } from '../page/engraved.ts';
import { type FontBook, markBox } from '../page/fonts.ts';
import { short } from '../page/marks.ts';
import { papers } from '../page/paper.ts';
import { joined, nothing } from '../page/path.ts';
import { markElements } from '../page/svg.ts';
import type { HandoutTune } from '../types.ts';
import { escaped } from '../xml.ts';

/** Systems in the page, each under an id that the pictures of its bars use. */
export interface Drawn {
  readonly systems: readonly { readonly id: string; readonly printed: PrintedSystem; readonly top: number; readonly bottom: number }[];
  readonly store: string;
  readonly problem: string | null;
}

export function drawn(tune: HandoutTune | null, id: string, fonts: FontBook): Drawn {
  const printed = tune === null ? [] : engravedSystems(tune, papers.a4, fonts);
  if ('problem' in printed) return { systems: [], store: '', problem: printed.problem };
  const systems = printed.map((one, i) => {
    const { top, bottom } = one.marks.map((mark) => markBox(fonts, mark)).reduce(joined, nothing);
    return { id: `${id}${i}`, printed: one, top, bottom };
  });
  const groups = systems.map((system) => `<g id="${system.id}">${markElements(system.printed.marks, fonts)}</g>`);
  return { systems, store: `<svg class="store" aria-hidden="true"><defs>${groups.join('')}</defs></svg>`, problem: null };
}

/** Where a bar stands on the picture; null if it has no note to be found by. */
export function placeOf({ systems }: Drawn, bar: BarSide | null): Place | null {
  const at = systems.find(({ printed }) => bar !== null && printed.system.notes.some((note) => isIn(note.match?.note, bar)));
  return at === undefined ? null : { at, ...stretchOf(at.printed.system, bar!) };
}

interface Place {
  readonly at: Drawn['systems'][number];
  readonly left: number;
  readonly right: number;
}

/** Room over and under the top staff line, one for both pictures of a row, so that their staffs stand at one height. */
interface Room {
  readonly above: number;
  readonly below: number;
}

export function roomOf(places: readonly (Place | null)[]): Room {
  const there = places.flatMap((place) => (place === null ? [] : [place.at]));
  return {
    above: Math.max(0, ...there.map((at) => staffTop(at) - at.top)),
    below: Math.max(0, ...there.map((at) => at.bottom - staffTop(at))),
  };
}

const staffTop = ({ printed }: Place['at']): number => printed.system.staffs[0]!.top;

/** The stretch of its system that a bar takes, with a band behind each note that changed; its notes in words where it is not drawn. */
export function pictureOf(place: Place | null, bar: BarSide, label: string, { above, below }: Room): string {
  if (place === null) return escaped(bar.spelled);
  const { at, left, right } = place;
  const [x, y, width, height] = [left, staffTop(at) - above, right - left, above + below].map(short) as [number, number, number, number];
  const bands = at.printed.system.notes
    .filter(({ match }) => bar.changed.some((span) => isIn(match?.note, span)))
    .map(({ heads }) => bandOf(heads, y, height));
  const size = `width="${short(width * magnified)}" height="${short(height * magnified)}"`;
  return `<svg role="img" aria-label="${escaped(`${label}: ${bar.spelled}`)}" ${size} viewBox="${x} ${y} ${width} ${height}">${bands.join('')}<use href="#${at.id}"/></svg>`;
}

/** Pixels a unit of the engraving. */
const magnified = 1.25;

function bandOf(heads: readonly { readonly x: number }[], y: number, height: number): string {
  const xs = heads.map(({ x }) => x);
  const from = Math.min(...xs) - beside;
  return `<rect class="mark" x="${short(from)}" y="${y}" width="${short(Math.max(...xs) + beside - from)}" height="${height}"/>`;
}

/** Room of a note's band on either side of its middle, in units of the engraving. */
const beside = 10;

const isIn = (note: { readonly from: number; readonly to: number } | undefined, span: { readonly from: number; readonly to: number }) =>
  note !== undefined && note.from >= span.from && note.to <= span.to;

/** From the bar line before the bar's notes to the one after them; from the clef if it is the first of its system. */
function stretchOf({ left, right, notes, bars }: PrintedSystem['system'], bar: BarSide): { readonly left: number; readonly right: number } {
  const xs = notes.map(({ match, heads }) => ({ own: isIn(match?.note, bar), x: heads[0]?.x ?? 0 }));
  const own = xs.filter((note) => note.own).map(({ x }) => x);
  const [first, last] = [Math.min(...own), Math.max(...own)];
  const leads = xs.every(({ x }) => x >= first);
  return {
    left: leads ? left : Math.max(left, ...bars.filter(({ x }) => x < first).map(({ x }) => x)),
    right: Math.min(right, ...bars.filter(({ x }) => x > last).map(({ x, width }) => x + width)),
  };
}
