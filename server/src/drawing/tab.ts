// The tab of one voice under its staff: lines cut around the stops, letters, bar lines, stops.
import type { PlanNote, PlanPlace } from '../arrangement/types.ts';
import type { EngravedSystem } from '../engraving/types.ts';
import { setApart } from './crowding.ts';
import { furniture, lineShape, type Meaning, textShape } from './make.ts';
import { type FigureWidths, graceShare, halfStop, stopSize, tabGap, tabHeight, wideStopSize } from './measures.ts';
import type { FingeredHead, FingeredNote } from './notes.ts';
import type { Shape } from './shapes.ts';
import { spokenPlace } from './spoken.ts';

/** Where a tab stands: y of its top line, names of its strings from the top. */
export interface TabPlace {
  readonly top: number;
  readonly strings: readonly string[];
}

/** A stop as drawn, for arcs and slides to lean on. */
export interface DrawnStop {
  readonly note: FingeredNote;
  readonly head: FingeredHead;
  readonly place: PlanPlace;
  readonly string: number;
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  /** Width as a share of what the face gives. */
  readonly stretch: number;
  readonly halfWidth: number;
}

export const stringY = (tab: TabPlace, string: number): number => tab.top + string * tabGap;

const inkOf = ({ pinned }: PlanNote): 'pinned' | 'computed' => (pinned.length > 0 ? 'pinned' : 'computed');

function stopText(place: PlanPlace, plan: PlanNote): string {
  if (plan.attack === 'dead') return '×';
  return place.harmonic ? `‹${place.stop}›` : String(place.stop);
}

/** The signs around a harmonic are narrower than figures, in any usual face by this. */
const harmonicSign = 0.65;
const figuresIn = (text: string): number => Array.from(text).reduce((sum, sign) => sum + ('‹›'.includes(sign) ? harmonicSign : 1), 0);

const sizeOf = (note: FingeredNote, text: string): number =>
  (text.length > 1 ? wideStopSize : stopSize) * (note.engraved.kind === 'grace' ? graceShare : 1);

/** The stops of the voice, in the order of the notes. */
export function stopsOf(notes: readonly FingeredNote[], tab: TabPlace, figures: FigureWidths): DrawnStop[] {
  const stops = notes.flatMap((note) =>
    note.heads.flatMap((head): DrawnStop[] => {
      const { place } = head;
      const string = place === null ? -1 : tab.strings.indexOf(place.string);
      if (place === null || note.plan === null || string < 0) return [];
      const text = stopText(place, note.plan);
      const size = sizeOf(note, text);
      const halfWidth = (figuresIn(text) * size * figures[inkOf(note.plan)]) / 2;
      return [{ note, head, place, string, x: note.x, y: stringY(tab, string), text, size, stretch: 1, halfWidth }];
    }),
  );
  return setApart(stops);
}

function stopMeaning({ note, head, place }: DrawnStop): Meaning {
  const plan = note.plan!;
  const source = note.scene.heads[head.index]!;
  return {
    role: 'tab-stop',
    ink: inkOf(plan),
    source: { from: source.from, to: source.to },
    note: note.scene.id,
    spoken: spokenPlace(place, plan),
  };
}

function stopShape(stop: DrawnStop): Shape {
  const { x, y, text, size, stretch } = stop;
  return { ...textShape(stopMeaning(stop), text, { x, y: y + (halfStop * size) / stopSize }, size, 'digits'), stretch };
}

/** Air on each side of a digit where the line is cut: no white box is needed, so any background will do. */
const cut = 1.2;
const letterX = 6;
const lineWidth = 0.7;
const barWidth = 0.9;

/** A shorter piece between two stops reads as a hyphen (`12-14`), and is left out. */
const leastPiece = 6;

/** The pieces of a line that remain between the cuts. */
function piecesBetween(left: number, right: number, cuts: readonly (readonly [number, number])[]): [number, number][] {
  const pieces: [number, number][] = [];
  let from = left;
  for (const [start, end] of [...cuts].sort((a, b) => a[0] - b[0])) {
    if (start - from > (from === left ? 1 : leastPiece)) pieces.push([from, start]);
    from = Math.max(from, end);
  }
  if (right - from > 1) pieces.push([from, right]);
  return pieces;
}

function tabLines(system: EngravedSystem, tab: TabPlace, stops: readonly DrawnStop[]): Shape[] {
  return tab.strings.flatMap((_, string) => {
    const letter = [system.left + letterX - 5, system.left + letterX + 5] as const;
    const around = stops
      .filter((stop) => stop.string === string)
      .map((stop) => [stop.x - stop.halfWidth - cut, stop.x + stop.halfWidth + cut] as const);
    const y = stringY(tab, string);
    return piecesBetween(system.left, system.right, [letter, ...around]).map(([from, to]) =>
      lineShape(furniture('tab-line'), from, y, to, y, lineWidth),
    );
  });
}

const letters = (system: EngravedSystem, tab: TabPlace): Shape[] =>
  tab.strings.map((name, string) =>
    textShape(furniture('tab-letter'), name, { x: system.left + letterX, y: stringY(tab, string) + 3.4 }, 9.5, 'digits'),
  );

function bars(system: EngravedSystem, staff: number, tab: TabPlace): Shape[] {
  const bottom = tab.top + tabHeight(tab.strings.length);
  const bar = (x: number, source: { readonly from: number; readonly to: number } | null): Shape =>
    lineShape({ ...furniture('tab-bar'), source }, x, tab.top, x, bottom, barWidth);
  const own = system.bars.filter((each) => each.staff === staff).map(({ x, source }) => bar(x, source));
  const staffTop = system.staffs[staff]!.top;
  const joining = lineShape(furniture('tab-bar'), system.left, staffTop, system.left, bottom, barWidth);
  return [joining, ...own];
}

/** All of the tab but what joins notes. */
export function drawTab(system: EngravedSystem, staff: number, tab: TabPlace, stops: readonly DrawnStop[]): Shape[] {
  return [...tabLines(system, tab, stops), ...letters(system, tab), ...bars(system, staff, tab), ...stops.map(stopShape)];
}
