// Reads geometry from the library's layout objects as plain numbers; nothing of the library is kept.
import type { LibAbsolute, LibElement, LibLine, LibRelative, LibStaffGroup } from './library.ts';
import { stepHeight } from './room.ts';
import type { EngravedHead } from './types.ts';

/** A drawn note with the place of its element in the tree: staff, voice of the staff, index in the voice. */
export interface PlacedNote {
  readonly staff: number;
  readonly layer: number;
  readonly index: number;
  readonly heads: readonly EngravedHead[];
  readonly graces: readonly EngravedHead[];
  readonly stem: 'up' | 'down' | null;
  readonly beam: number | null;
  /** Whether the library drew exactly the heads that it parsed. */
  readonly whole: boolean;
}

export interface PlacedBar {
  readonly staff: number;
  readonly layer: number;
  readonly index: number;
  readonly x: number;
  readonly width: number;
}

export interface Geometry {
  readonly left: number;
  readonly right: number;
  readonly staffs: readonly { readonly top: number; readonly bottom: number; readonly zero: number }[];
  /** y between the grounds of neighbouring staves. */
  readonly borders: readonly number[];
  readonly notes: readonly PlacedNote[];
  readonly bars: readonly PlacedBar[];
}

const topLine = 10;
const bottomLine = 2;

/** Offset of a pitch as drawn from its position on the staff: clefs other than treble move heads. `signs` are the accidentals beside it. */
const headOf = (zero: number, step: number, head: LibRelative, signs: readonly LibRelative[]): EngravedHead => ({
  x: head.x + head.w / 2,
  y: zero - head.pitch * stepHeight,
  width: head.w,
  left: Math.min(head.x, ...signs.filter(({ pitch, x }) => pitch === head.pitch && x < head.x).map(({ x }) => x)),
  step,
});

const isGraceHead = (part: LibRelative): boolean => part.type === 'symbol' && part.c?.startsWith('noteheads') === true;

const isAccidental = (part: LibRelative): boolean => part.type === 'symbol' && part.c?.startsWith('accidentals') === true;

function stemOf(element: LibAbsolute): 'up' | 'down' | null {
  const stem = element.children.find((child) => child.type === 'stem');
  const head = element.heads[0];
  if (stem === undefined || head === undefined) return null;
  return stem.x > head.x + head.w / 2 ? 'up' : 'down';
}

/** Heads stand in the order of the pitches, which engraving has sorted upwards. */
function placeNote(element: LibElement, zero: number, at: Pick<PlacedNote, 'staff' | 'layer' | 'index' | 'beam'>): PlacedNote | null {
  const drawn = element.abselem;
  if (drawn === undefined || element.pitches === undefined) return null;
  const signs = drawn.extra.filter(isAccidental);
  const heads = drawn.heads.map((head, i) => headOf(zero, element.pitches![i]?.pitch ?? Number.NaN, head, signs));
  const graceHeads = drawn.extra.filter(isGraceHead);
  const graces = graceHeads.map((head, i) => headOf(zero, element.gracenotes?.[i]?.pitch ?? Number.NaN, head, signs));
  const whole = heads.length === element.pitches.length && graces.length === (element.gracenotes?.length ?? 0);
  return { ...at, heads, graces, stem: stemOf(drawn), whole };
}

/** Middle and thickness of a sign's main line: the thickest of its lines. */
function barLine(bar: LibAbsolute): { readonly x: number; readonly width: number } {
  const lines = bar.children.filter((child) => child.type === 'bar');
  const widthOf = (line: LibRelative): number => line.linewidth ?? 1;
  const main = lines.reduce<LibRelative | null>((best, line) => (best === null || widthOf(line) > widthOf(best) ? line : best), null);
  return main === null ? { x: bar.x, width: 0 } : { x: main.x + widthOf(main) / 2, width: widthOf(main) };
}

/** Numbers the beam groups of a voice: null for a note alone. */
function beamsOf(elements: readonly LibElement[], first: number): (number | null)[] {
  let current: number | null = null;
  let next = first;
  return elements.map((element) => {
    if (element.startBeam === true && element.endBeam !== true) current = next++;
    const own = element.el_type === 'note' ? current : null;
    if (element.endBeam === true) current = null;
    return own;
  });
}

/** Beams and slurs hang so far below what the library counts as a staff's ground. */
const overhang = 8;

function bordersOf(group: LibStaffGroup): number[] {
  return group.staffs.slice(1).map((staff, i) => {
    const above = group.staffs[i]!;
    const ground = above.absoluteY - above.bottom * stepHeight;
    const sky = staff.absoluteY - staff.top * stepHeight;
    return Math.max((ground + sky) / 2, ground + overhang);
  });
}

/** Geometry of a line just drawn. */
export function geometryOf(line: LibLine): Geometry {
  const group = line.staffGroup!;
  const notes: PlacedNote[] = [];
  const bars: PlacedBar[] = [];
  let beams = 0;
  line.staff!.forEach((staff, s) => {
    const zero = group.staffs[s]!.absoluteY;
    staff.voices.forEach((elements, layer) => {
      const groups = beamsOf(elements, beams);
      beams += elements.length;
      elements.forEach((element, index) => {
        const at = { staff: s, layer, index, beam: groups[index] ?? null };
        const note = placeNote(element, zero, at);
        if (note !== null) notes.push(note);
        const bar = element.el_type === 'bar' && layer === 0 ? element.abselem : undefined;
        if (bar !== undefined) bars.push({ staff: s, layer, index, ...barLine(bar) });
      });
    });
  });
  return {
    left: group.startx,
    right: group.w,
    staffs: group.staffs.map(({ absoluteY }) => ({
      zero: absoluteY,
      top: absoluteY - topLine * stepHeight,
      bottom: absoluteY - bottomLine * stepHeight,
    })),
    borders: bordersOf(group),
    notes,
    bars,
  };
}
