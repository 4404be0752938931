// Rhythm under a tab, so that the tab can be read alone: stems, beams and flags, dots, rests, and the figures of tuplets.
import type { Fraction, Rest, Voice } from '../score/types.ts';
import { furniture, lineShape, pathData, pathShape, textShape } from './make.ts';
import { halfStop, space } from './measures.ts';
import type { FingeredNote } from './notes.ts';
import type { Shape } from './shapes.ts';

/** From the lowest tab line to the top of the stems; from there to the beams. */
const overStems = halfStop + 0.45 * space;
const stemLength = 2.3 * space;
const pen = 0.87;
const beamThick = 0.45 * space;
const beamStep = 0.7 * space;
const figureSize = 11;

/** Height that the rhythm takes under the lowest tab line, tuplet figures included. */
export const rhythmRoom = overStems + stemLength + figureSize;

/** From the lowest tab line to where an accent stands under the stems. */
export const underStems = overStems + stemLength + 2;

/** A length as it is written: `value` is a power of two of a whole note; `tuplet` the figure it is read with, or null. */
interface Written {
  readonly value: number;
  readonly dots: number;
  readonly tuplet: number | null;
}

/** Shares of its value that a note with no, one and two dots lasts. */
const dotted = [1, 1.5, 1.75] as const;

/** How a length is written; one that no value fits (a tuplet's) is the next longer value under a figure. */
export function writtenValue({ num, den }: Fraction): Written {
  const length = num / den;
  const value = 2 ** Math.floor(Math.log2(length));
  const dots = dotted.indexOf((length / value) as (typeof dotted)[number]);
  const odd = den / (den & -den);
  return dots >= 0 ? { value, dots, tuplet: null } : { value: value * 2, dots: 0, tuplet: odd > 1 ? odd : null };
}

const beamsOf = ({ value }: Written): number => Math.max(0, Math.round(Math.log2(1 / value)) - 2);

/** A note or rest of the system with its place. */
interface Timed {
  readonly x: number;
  readonly onset: number;
  readonly length: Fraction;
  readonly written: Written;
  /** null for a rest. */
  readonly note: FingeredNote | null;
}

const toNumber = ({ num, den }: Fraction): number => num / den;

/** The rhythm of one voice's main layer, which the stops are of; `notes` are those of the system, `lines` the x of its bar lines by their place in the text. */
export function drawRhythm(notes: readonly FingeredNote[], voice: Voice, bottom: number, lines: ReadonlyMap<number, number>): Shape[] {
  const lengths = new Map(voice.notes.filter(({ layer }) => layer === 0).map((note) => [note.id, note.duration]));
  const sounding = notes.flatMap((note): Timed[] => {
    const length = lengths.get(note.scene.id);
    if (note.engraved.kind === 'grace' || length === undefined || length.num === 0) return [];
    return [{ x: note.x, onset: toNumber(note.scene.onset), length, written: writtenValue(length), note }];
  });
  const rests = restsOf(voice, sounding, lines);
  const all = [...sounding, ...rests].sort((a, b) => a.onset - b.onset);
  const top = bottom + overStems;
  return [
    ...sounding.flatMap((timed) => stemShapes(timed, top)),
    ...groupsOf(sounding).flatMap((group) => (group.length > 1 ? beams(group, top) : flags(group[0]!, top))),
    ...rests.flatMap((timed) => restShapes(timed, top + 0.45 * stemLength)),
    ...figures(all, top + stemLength + figureSize - 1),
  ];
}

/** Notes under one beam, and notes alone. Under the tab no beam runs over a rest: the rest stands in the same row. */
function groupsOf(notes: readonly Timed[]): readonly (readonly Timed[])[] {
  const groups: Timed[][] = [];
  for (const timed of notes) {
    const beam = timed.note!.engraved.beam;
    const last = groups.at(-1);
    const before = last?.at(-1);
    const joins = before !== undefined && before.note!.engraved.beam === beam && endOf(before) > timed.onset - 1e-9;
    if (beam !== null && joins) last!.push(timed);
    else groups.push([timed]);
  }
  return groups;
}

const endOf = ({ onset, length }: Timed): number => onset + toNumber(length);

/** A whole note has no stem, a half note the lower part of one. */
function stemShapes({ x, written }: Timed, top: number): Shape[] {
  const foot = top + stemLength;
  const head = written.value >= 0.5 ? foot - 0.55 * stemLength : top;
  const stem = written.value >= 1 ? [] : [lineShape(furniture('stem'), x, head, x, foot, pen)];
  const dots = Array.from({ length: written.dots }, (_, i) => dot(x + 4.5 + 3.5 * i, foot - 0.45 * stemLength));
  return [...stem, ...dots];
}

const dot = (x: number, y: number): Shape => ({ ...furniture('stem'), kind: 'circle', x, y, r: 1.3, fill: true });

const bar = (x1: number, x2: number, y: number): Shape => ({
  ...furniture('stem'),
  kind: 'rect',
  x: x1 - pen / 2,
  y: y - beamThick,
  w: x2 - x1 + pen,
  h: beamThick,
});

/** Beams along the foot of the stems; a shorter value alone in its group gets a stub towards its neighbour. */
function beams(group: readonly Timed[], top: number): Shape[] {
  const counts = group.map(({ written }) => beamsOf(written));
  const foot = top + stemLength;
  const shapes: Shape[] = [];
  for (let level = 1; level <= Math.max(...counts); level++) {
    const y = foot - (level - 1) * beamStep;
    for (let i = 0; i < group.length; i++) {
      if (counts[i]! < level || (i > 0 && counts[i - 1]! >= level)) continue;
      let end = i;
      while (end + 1 < group.length && counts[end + 1]! >= level) end++;
      const [from, to] = [group[i]!.x, group[end]!.x];
      if (end > i) shapes.push(bar(from, to, y));
      else shapes.push(i === 0 ? bar(from, from + space, y) : bar(from - space, from, y));
    }
  }
  return shapes;
}

function flags({ x, written }: Timed, top: number): Shape[] {
  return Array.from({ length: beamsOf(written) }, (_, i) => {
    const y = top + stemLength - i * beamStep;
    return pathShape(furniture('stem'), pathData('M', x, y, 'C', x + 1, y - 4, x + 6, y - 5, x + 4.5, y - 11), 1.3);
  });
}

/** Rests that are seen in the bars of the system: a lone one in the middle of its bar, others where their time falls between their neighbours. */
function restsOf(voice: Voice, notes: readonly Timed[], lines: ReadonlyMap<number, number>): readonly Timed[] {
  let left: number | null = null;
  return voice.bars.flatMap((each): Timed[] => {
    const right = each.closedBy === null ? undefined : lines.get(each.closedBy.from);
    const [start, end] = [toNumber(each.onset), toNumber(each.onset) + toNumber(each.duration)];
    const inside = notes.filter(({ onset }) => onset >= start && onset < end);
    const from = left ?? Math.min(...inside.map(({ x }) => x), (right ?? 0) - 8 * space);
    left = right ?? null;
    if (right === undefined) return [];
    const known = [{ onset: start, x: from + 1.5 * space }, ...inside, { onset: end, x: right }];
    return voice.rests
      .filter((rest) => rest.seen && rest.layer === 0 && rest.bar === each.index)
      .map((rest) => restAt(rest, known, inside, from, right));
  });
}

function restAt(
  { onset, duration }: Rest,
  known: readonly { readonly onset: number; readonly x: number }[],
  notes: readonly Timed[],
  left: number,
  right: number,
): Timed {
  const at = toNumber(onset);
  const timed = { onset: at, length: duration, written: writtenValue(duration), note: null };
  if (notes.length === 0) return { ...timed, x: (left + right) / 2 };
  const next = known.find((each) => each.onset > at) ?? known.at(-1)!;
  const before = known.findLast((each) => each.onset <= at) ?? known[0]!;
  // Engraving gives twice the time less than twice the room: about its root.
  const [since, until] = [Math.sqrt(at - before.onset), Math.sqrt(Math.max(0, next.onset - at))];
  const share = since / Math.max(1e-9, since + until);
  return { ...timed, x: before.x + share * (next.x - before.x) };
}

/** A rest about `y`: whole and half as blocks on a line, a quarter as a zigzag, shorter ones as a stroke with a knob for each beam. */
function restShapes({ x, written }: Timed, y: number): Shape[] {
  const dots = Array.from({ length: written.dots }, (_, i) => dot(x + 7 + 3.5 * i, y));
  return [...restSign(x, y, written), ...dots];
}

function restSign(x: number, y: number, written: Written): Shape[] {
  const meaning = furniture('stem');
  if (written.value >= 0.5) {
    const block: Shape = { ...meaning, kind: 'rect', x: x - 4, y: written.value >= 1 ? y : y - 3, w: 8, h: 3 };
    return [lineShape(meaning, x - 6, y, x + 6, y, pen), block];
  }
  if (written.value === 0.25) {
    const zigzag = pathData('M', x - 2, y - 8, 'L', x + 2.5, y - 3, 'L', x - 1.5, y, 'L', x + 2.5, y + 4.5);
    const hook = pathData('M', x + 2.5, y + 4.5, 'C', x - 2, y + 3, x - 3, y + 6, x, y + 8.5);
    return [pathShape(meaning, zigzag, 1.5), pathShape(meaning, hook, 1.2)];
  }
  const count = beamsOf(written);
  const stroke = lineShape(meaning, x + 3, y - 6, x - 0.5, y + 2 + 4 * count, 1);
  const knobs = Array.from({ length: count }, (_, i): Shape[] => {
    const at = { x: x - 3 - i * 1.2, y: y - 4 + i * 4.5 };
    const arm = pathData('M', at.x, at.y, 'C', at.x + 2, at.y + 2.5, at.x + 4, at.y + 1, at.x + 6 - i * 0.2, at.y - 2);
    return [{ ...meaning, kind: 'circle', x: at.x, y: at.y, r: 1.6, fill: true }, pathShape(meaning, arm, 1)];
  });
  return [stroke, ...knobs.flat()];
}

/** The figure of each tuplet, under its middle: lengths are gathered until they make a value that needs none. */
function figures(all: readonly Timed[], y: number): Shape[] {
  const shapes: Shape[] = [];
  let group: Timed[] = [];
  let sum = 0;
  for (const timed of all) {
    const { tuplet } = timed.written;
    if (tuplet === null && group.length === 0) continue;
    group.push(timed);
    sum += toNumber(timed.length);
    const figure = group[0]!.written.tuplet!;
    const whole = sum * 64;
    if (Math.abs(whole - Math.round(whole)) > 1e-6) continue;
    shapes.push(textShape(furniture('stem'), String(figure), { x: (group[0]!.x + timed.x) / 2, y }, figureSize, 'serif-italic'));
    group = [];
    sum = 0;
  }
  return shapes;
}
