// The fingerboard to scale, seen from above with the nut on the left, and the hand on it for one note.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import { furniture, lineShape, textShape } from './make.ts';
import type { Shape } from './shapes.ts';

/** What the drawing needs of an instrument: string names from the highest, vibrating length in mm, highest stop shown. */
export interface Board {
  readonly strings: readonly string[];
  readonly mensur: number;
  readonly top: number;
}

/** Distance of a stop from the nut in mm: L(1 - 2^(-n/12)). */
const stopMm = (mensur: number, stop: number): number => mensur * (1 - 2 ** (-stop / 12));

const leastTop = 12;
/** Where no stop tells the length: a common full mensur in mm. */
const usualMensur = 1060;

/** The board of a plan: its length follows from any stop's distance. */
export function boardOf(plan: Plan): Board {
  const places = plan.notes.flatMap((note) => note.places);
  const stopped = places.find((place) => place.stop > 0 && place.mm > 0);
  const mensur = stopped === undefined ? usualMensur : stopped.mm / (1 - 2 ** (-stopped.stop / 12));
  return { strings: plan.strings, mensur, top: Math.max(leastTop, ...places.map((place) => place.stop)) + 1 };
}

const left = 36;
const right = 12;
const top = 18;
const stringGap = 15;
/** One unit is 1 mm. */
export const boardWidth = (board: Board): number => left + stopMm(board.mensur, board.top) + right;
export const boardHeight = (board: Board): number => top + (board.strings.length - 1) * stringGap + 24;

const xOf = (board: Board, stop: number): number => left + stopMm(board.mensur, stop);
const yOf = (string: number): number => top + string * stringGap;

/** Stops that players find by the shape of the instrument and by harmonics (common practice). */
const landmarks = new Set([2, 5, 7, 9, 12, 19]);

/** Semitones from finger 1 to finger 4, and from the thumb to finger 3, that the hand covers without moving. */
const spanOf: Readonly<Record<NonNullable<PlanNote['hand']>['frame'], number>> = { closed: 2, open: 3, upper: 3, thumb: 5 };

function scale(board: Board): Shape[] {
  const bottom = yOf(board.strings.length - 1);
  const stops = Array.from({ length: board.top + 1 }, (_, stop) => stop);
  return stops.flatMap((stop) => {
    const x = xOf(board, stop);
    const length = landmarks.has(stop) || stop === 0 ? 8 : 4;
    const tick = lineShape(furniture('board'), x, stop === 0 ? top : bottom + 4, x, bottom + 4 + length, stop === 0 ? 2.4 : 0.8);
    const label = textShape(furniture('board'), String(stop), { x, y: bottom + 21 }, 10, 'digits');
    return landmarks.has(stop) ? [tick, label] : [tick];
  });
}

function hand(board: Board, note: PlanNote): Shape[] {
  if (note.hand === null) return [];
  const { frame, stop } = note.hand;
  const from = xOf(board, stop) - 9;
  const to = xOf(board, Math.min(board.top, stop + spanOf[frame])) + 9;
  const bottom = yOf(board.strings.length - 1);
  return [{ ...furniture('hand'), kind: 'rect', x: from, y: top - 9, w: to - from, h: bottom - top + 18 }];
}

function fingers(board: Board, note: PlanNote): Shape[] {
  return note.places.flatMap((place): Shape[] => {
    const string = board.strings.indexOf(place.string);
    if (string < 0) return [];
    const at = { x: place.stop === 0 ? left - 13 : xOf(board, place.stop), y: yOf(string) };
    const meaning = { ...furniture('finger'), note: note.id };
    return [
      { ...meaning, kind: 'circle', ...at, r: 7, fill: place.stop > 0 },
      textShape({ ...meaning, role: 'tab-stop' }, place.finger, { x: at.x, y: at.y + 3.6 }, 10, 'digits'),
    ];
  });
}

/** The board with the hand and fingers of one note; bare for null. */
export function drawBoard(board: Board, note: PlanNote | null): readonly Shape[] {
  const end = xOf(board, board.top);
  const strings = board.strings.map((_, string) => lineShape(furniture('board'), left, yOf(string), end, yOf(string), 0.8 + string * 0.35));
  const names = board.strings.map((name, string) => textShape(furniture('tab-letter'), name, { x: 6, y: yOf(string) + 3.6 }, 10, 'digits'));
  const playing = note === null ? [] : [...hand(board, note), ...fingers(board, note)];
  return [...scale(board), ...strings, ...names, ...playing];
}
