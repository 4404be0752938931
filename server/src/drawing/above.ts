// What stands above the staff, from the notes outwards: accent, finger, string, place of the hand.
import type { PlanNote } from '../arrangement/types.ts';
import { type Meaning, pathData, pathShape, textShape } from './make.ts';
import { fingerSize, handSize, space, stringSize } from './measures.ts';
import { type FingeredNote, pinnedFinger, pinnedString, stringInk } from './notes.ts';
import type { Ink, Shape } from './shapes.ts';
import type { Skyline } from './skyline.ts';

/** How much is shown: at every note, where something changes, or only what the player wrote. */
export type Density = 'all' | 'changes' | 'pins';

type Hand = NonNullable<PlanNote['hand']>;

const sameHand = (a: Hand | null, b: Hand | null): boolean => a?.frame === b?.frame && a?.stop === b?.stop;

const meaningOf = (role: Meaning['role'], ink: Ink, note: FingeredNote): Meaning => ({
  role,
  ink,
  source: { from: note.scene.from, to: note.scene.to },
  note: note.scene.id,
  spoken: null,
});

const accentWidth = 1.25 * space;
const accentHeight = 0.78 * space;
const accentPen = 0.95;

/** An accent wedge with its middle at x and its upper edge at y. */
export function accentShape(note: FingeredNote, x: number, y: number): Shape {
  const left = x - accentWidth / 2;
  const d = pathData('M', left, y, 'L', left + accentWidth, y + accentHeight / 2, 'L', left, y + accentHeight);
  return pathShape(meaningOf('accent', 'pinned', note), d, accentPen);
}

export const isAccented = (note: FingeredNote): boolean => note.scene.marks.includes('accent');

/** One mark above a note: how wide and high it is, how far from what is below, and how it is drawn with its lower edge at y. */
interface RowMark {
  readonly note: FingeredNote;
  readonly width: number;
  readonly height: number;
  draw(y: number): Shape;
}

/** Places a row: over the ink, one level for the notes of a beam. */
function placeRow(marks: readonly RowMark[], sky: Skyline, staffTop: number, gap: number): Shape[] {
  const ground = (mark: RowMark): number => sky.over(mark.note.x - mark.width / 2 - 1, mark.note.x + mark.width / 2 + 1, staffTop);
  const levels = new Map<number, number>();
  for (const mark of marks) {
    const { beam } = mark.note.engraved;
    if (beam !== null) levels.set(beam, Math.min(levels.get(beam) ?? Number.POSITIVE_INFINITY, ground(mark)));
  }
  const placed = marks.map((mark) => {
    const { beam } = mark.note.engraved;
    return { mark, y: (beam === null ? ground(mark) : levels.get(beam)!) - gap };
  });
  for (const { mark, y } of placed) sky.raise(mark.note.x - mark.width / 2, mark.note.x + mark.width / 2, y - mark.height);
  return placed.map(({ mark, y }) => mark.draw(y));
}

const accentMark = (note: FingeredNote): RowMark => ({
  note,
  width: accentWidth,
  height: accentHeight,
  draw: (y) => accentShape(note, note.x, y - accentHeight),
});

/** Digits have no descenders: their lower edge is the baseline. */
const digitHeight = 0.72;

const fingerMark = (note: FingeredNote, text: string, ink: Ink): RowMark => ({
  note,
  width: text.length * fingerSize * 0.56,
  height: fingerSize * digitHeight,
  draw: (y) => textShape(meaningOf('finger', ink, note), text, { x: note.x, y }, fingerSize, 'digits'),
});

/** A small circle over a harmonic. */
const harmonicRadius = 2.6;
const harmonicMark = (note: FingeredNote): RowMark => ({
  note,
  width: harmonicRadius * 2,
  height: harmonicRadius * 2,
  draw: (y) => ({
    ...meaningOf('finger', 'pinned', note),
    kind: 'circle',
    x: note.x,
    y: y - harmonicRadius,
    r: harmonicRadius,
    fill: false,
  }),
});

const thumbText = (finger: string): string => (finger === 'thumb' ? 'T' : finger);

const changesPlace = (plan: PlanNote, before: PlanNote | null): boolean =>
  before === null || plan.shift || !sameHand(plan.hand, before.hand) || plan.places[0]?.string !== before.places[0]?.string;

interface PrintedText {
  readonly text: string;
  readonly ink: Ink;
}

/** The fingers to print over a note, lowest head first. */
function fingersOf(note: FingeredNote, density: Density): readonly PrintedText[] {
  const { plan, before, scene } = note;
  if (scene.tied) return [];
  if (plan === null || plan.places.length === 0) {
    const pinned = pinnedFinger(scene);
    return pinned === null ? [] : [{ text: thumbText(pinned), ink: 'pinned' }];
  }
  const ink: Ink = plan.pinned.includes('finger') ? 'pinned' : 'computed';
  if (density === 'pins' && ink !== 'pinned') return [];
  if (density === 'changes' && ink !== 'pinned' && !changesPlace(plan, before)) return [];
  return note.heads.flatMap(({ place }) => (place === null ? [] : [{ text: place.finger, ink }]));
}

/** Rows of fingers: that of the lowest head of each note, of the next, and so on. */
function fingerRows(notes: readonly FingeredNote[], density: Density): RowMark[][] {
  const rows: RowMark[][] = [];
  for (const note of notes) {
    fingersOf(note, density).forEach(({ text, ink }, head) => {
      const row = rows[head] ?? [];
      row.push(fingerMark(note, text, ink));
      rows[head] = row;
    });
  }
  return rows;
}

function stringText(note: FingeredNote, density: Density): PrintedText | null {
  const { plan, before, scene } = note;
  const pinned = pinnedString(scene);
  if (pinned !== null) return { text: pinned.replace(/^sul ?/, ''), ink: 'pinned' };
  const place = plan?.places[0];
  if (density === 'pins' || place === undefined || place.stop === 0 || scene.tied) return null;
  const same = before?.places[0]?.string === place.string;
  return same ? null : { text: place.string, ink: stringInk(note) };
}

const stringMark = (note: FingeredNote, text: string, ink: Ink): RowMark => ({
  note,
  width: stringSize * 0.7,
  height: stringSize * digitHeight,
  draw: (y) => textShape(meaningOf('string-text', ink, note), text, { x: note.x, y }, stringSize, 'serif-italic'),
});

/** The hand's place in words: finger 1's stop on the neck, the thumb's in thumb position. */
const handText = (hand: Hand): string => (hand.frame === 'thumb' ? `Thumb ${hand.stop}` : `Hand ${hand.stop}`);

/** The same in the least room. */
const shortHandText = (hand: Hand): string => (hand.frame === 'thumb' ? `T${hand.stop}` : String(hand.stop));

/** Width of a letter of the hand's row, as a share of its size. */
const handLetter = 0.6;
const handWidth = (text: string): number => text.length * handSize * handLetter;
/** From a note's middle to the left edge of its hand mark. */
const handLead = 4;
/** Between two hand marks: wide enough that two stops do not read as one number. */
const handGap = 7;

interface HandMark {
  readonly note: FingeredNote;
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** Marks where the hand takes a new place; soon after a full mark of the same kind the bare stop is enough. */
function handMarks(notes: readonly FingeredNote[], right: number): HandMark[] {
  const marks: HandMark[] = [];
  let frame: Hand['frame'] | null = null;
  for (const note of notes) {
    const hand = note.plan?.hand ?? null;
    const before = note.before?.hand ?? null;
    if (hand === null || note.scene.tied || (before !== null && handText(before) === handText(hand))) continue;
    const last = marks.at(-1);
    const wanted = note.x - handLead;
    const near = last !== undefined && wanted - last.to < 6 * handSize && (frame === 'thumb') === (hand.frame === 'thumb');
    const least = last === undefined ? 0 : last.to + handGap;
    // A full mark pushed over the staff's end by the one before gives way to a letter and the stop.
    const full = near ? String(hand.stop) : handText(hand);
    const text = least + handWidth(full) <= right ? full : shortHandText(hand);
    const width = handWidth(text);
    const from = Math.max(Math.min(wanted, right - width), least);
    marks.push({ note, text, from, to: from + width });
    frame = hand.frame;
  }
  return pushedBack(marks, right);
}

/** Marks that would run over the staff's end make room for themselves to the left. */
function pushedBack(marks: readonly HandMark[], right: number): HandMark[] {
  const placed: HandMark[] = [];
  let end = right;
  for (const mark of marks.toReversed()) {
    const over = Math.max(0, mark.to - end);
    placed.unshift({ ...mark, from: mark.from - over, to: mark.to - over });
    end = mark.from - over - handGap;
  }
  return placed;
}

/** A voice's marks of the hand stand in one row over all inner rows of the system. */
function drawHands(notes: readonly FingeredNote[], sky: Skyline, edges: Edges): Shape[] {
  const marks = handMarks(notes, edges.right);
  const level = Math.min(...marks.map(({ from, to }) => sky.over(from - 2, to + 2, edges.top))) - 0.4 * space;
  for (const { from, to } of marks) sky.raise(from, to, level - 0.72 * handSize);
  return marks.map(({ note, text, from }) =>
    textShape(meaningOf('hand', 'computed', note), text, { x: from, y: level }, handSize, 'serif-italic', 'start'),
  );
}

const isHarmonic = (note: FingeredNote): boolean => note.plan?.places.some((place) => place.harmonic) ?? note.scene.marks.includes('open');

/** Upper and right edge of a staff. */
export interface Edges {
  readonly top: number;
  readonly right: number;
}

/** All rows above one staff, inner rows first; of several voices that of the lowest, so that fingers stand in the order of their heads. */
export function drawAbove(voices: readonly (readonly FingeredNote[])[], sky: Skyline, edges: Edges, density: Density): Shape[] {
  const upwards = voices.toReversed();
  return [
    ...upwards.flatMap((notes) => innerRows(notes, sky, edges.top, density)),
    ...(density === 'pins' ? [] : upwards.flatMap((notes) => drawHands(notes, sky, edges))),
  ];
}

function innerRows(notes: readonly FingeredNote[], sky: Skyline, staffTop: number, density: Density): Shape[] {
  const strings = notes.flatMap((note) => {
    const string = stringText(note, density);
    return string === null ? [] : [stringMark(note, string.text, string.ink)];
  });
  return [
    ...placeRow(notes.filter(isAccented).map(accentMark), sky, staffTop, 0.5 * space),
    ...placeRow(notes.filter(isHarmonic).map(harmonicMark), sky, staffTop, 0.5 * space),
    ...fingerRows(notes, density).flatMap((row, i) => placeRow(row, sky, staffTop, (i === 0 ? 0.5 : 0.4) * space)),
    ...placeRow(strings, sky, staffTop, 0.34 * space),
  ];
}
