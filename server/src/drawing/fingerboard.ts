// The fingerboard to scale, seen from above with the nut on the left, and the hand on it for one note.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import { furniture, lineShape, textShape } from './make.ts';
import type { Shape } from './shapes.ts';

/** What the drawing needs of an instrument: names of the strings from the highest, vibrating length in mm, stops shown. */
export interface Board {
  readonly strings: readonly { readonly name: string /** Lowest stop: below 0 on an extension behind the nut. */; readonly low: number }[];
  readonly mensur: number;
  readonly top: number;
}

/** Distance of a stop from the nut in mm, negative behind it: L(1 - 2^(-n/12)). */
const stopMm = (mensur: number, stop: number): number => mensur * (1 - 2 ** (-stop / 12));

const leastTop = 12;
/** Where no stop tells the length: a common full mensur in mm. */
const usualMensur = 1060;

/** The board of a plan: its length follows from the distance of the stop farthest from the nut, which a plan tells to a tenth of a mm. */
export function boardOf(plan: Plan): Board {
  const places = plan.notes.flatMap((note) => note.places);
  const farthest = places.reduce((far, place) => (Math.abs(place.mm) > Math.abs(far?.mm ?? 0) ? place : far), places[0]);
  const told = farthest !== undefined && farthest.stop !== 0 && farthest.mm !== 0;
  const mensur = told ? farthest.mm / (1 - 2 ** (-farthest.stop / 12)) : usualMensur;
  const lowOn = (name: string): number => Math.min(0, ...places.filter(({ string }) => string === name).map(({ stop }) => stop));
  const strings = plan.strings.map((name) => ({ name, low: lowOn(name) }));
  return { strings, mensur, top: Math.max(leastTop, ...places.map((place) => place.stop)) + 1 };
}

/** Measures of the picture in units (mm on the board), for a board that shows up to an octave. */
const margin = { left: 36, right: 12, top: 24, bottom: 24 } as const;
const stringGap = 15;
const labelSize = 10;
const fingerRadius = 7;
/** Beyond the outer fingers, and beyond the outer strings, a hand takes so much. */
const aroundHand = 9;
const spanSize = 9;
/** A longer board is shown smaller: its letters and distances between strings grow with it, so that they stay readable. */
const usualLength = 520;

const lowOf = (board: Board): number => Math.min(...board.strings.map(({ low }) => low));
const lengthOf = (board: Board): number => stopMm(board.mensur, board.top) - stopMm(board.mensur, lowOf(board));
const growth = (board: Board): number => Math.max(1, lengthOf(board) / usualLength);

/** One unit is 1 mm along the strings. */
export const boardWidth = (board: Board): number => lengthOf(board) + (margin.left + margin.right) * growth(board);
export const boardHeight = (board: Board): number => (margin.top + (board.strings.length - 1) * stringGap + margin.bottom) * growth(board);

const xOf = (board: Board, stop: number): number =>
  margin.left * growth(board) + stopMm(board.mensur, stop) - stopMm(board.mensur, lowOf(board));
const yOf = (board: Board, string: number): number => (margin.top + string * stringGap) * growth(board);
const lastY = (board: Board): number => yOf(board, board.strings.length - 1);

/** Stops that players find by the shape of the instrument and by harmonics (common practice), and on an extension every second. */
const landmarks = new Set([-4, -2, 2, 5, 7, 9, 12, 19]);

/** Semitones from finger 1 to finger 4, and from the thumb to finger 3, that the hand covers without moving. */
const spanOf: Readonly<Record<NonNullable<PlanNote['hand']>['frame'], number>> = { closed: 2, open: 3, upper: 3, thumb: 5 };
/** Behind the nut only neighbouring semitones fit a hand. */
const extensionSpan = 1;

/** Middles of capitals and figures lie so much over their baseline, as a share of their size. */
const middle = 0.36;

function scale(board: Board): Shape[] {
  const k = growth(board);
  const [low, bottom] = [lowOf(board), lastY(board)];
  const stops = Array.from({ length: board.top + 1 - low }, (_, i) => low + i);
  return stops.flatMap((stop) => {
    const x = xOf(board, stop);
    const length = (landmarks.has(stop) || stop === 0 ? 8 : 4) * k;
    const tick = lineShape(
      furniture('board'),
      x,
      stop === 0 ? yOf(board, 0) : bottom + 4 * k,
      x,
      bottom + 4 * k + length,
      stop === 0 ? 2.4 : 0.8,
    );
    const label = textShape(furniture('board'), String(stop), { x, y: bottom + 21 * k }, labelSize * k, 'digits');
    return landmarks.has(stop) ? [tick, label] : [tick];
  });
}

/** The stops from which to which a hand reaches: those of its frame, and any farther one that a finger is at. */
function spanned(note: PlanNote, hand: NonNullable<PlanNote['hand']>): readonly [from: number, to: number] {
  const stopped = note.places.map(({ stop }) => stop).filter((stop) => stop !== 0);
  const span = hand.stop < 0 ? extensionSpan : spanOf[hand.frame];
  return [Math.min(hand.stop, ...stopped), Math.max(hand.stop + span, ...stopped)];
}

function hand(board: Board, note: PlanNote): Shape[] {
  if (note.hand === null) return [];
  const k = growth(board);
  const [from, to] = spanned(note, note.hand);
  const [x1, x2] = [xOf(board, from), xOf(board, Math.min(board.top, to))];
  const top = yOf(board, 0) - aroundHand * k;
  const band: Shape = {
    ...furniture('hand'),
    kind: 'rect',
    x: x1 - aroundHand * k,
    y: top,
    w: x2 - x1 + 2 * aroundHand * k,
    h: lastY(board) - top + aroundHand * k,
  };
  if (to > board.top) return [band];
  const words = `${Math.round(x2 - x1)} mm`;
  return [band, textShape(furniture('board'), words, { x: (x1 + x2) / 2, y: top - 3 * k }, spanSize * k, 'digits')];
}

function fingers(board: Board, note: PlanNote): Shape[] {
  const k = growth(board);
  return note.places.flatMap((place): Shape[] => {
    const string = board.strings.findIndex(({ name }) => name === place.string);
    if (string < 0) return [];
    const at = { x: place.stop === 0 ? xOf(board, 0) - 13 * k : xOf(board, place.stop), y: yOf(board, string) };
    const meaning = { ...furniture('finger'), note: note.id };
    const size = labelSize * k;
    return [
      { ...meaning, kind: 'circle', ...at, r: fingerRadius * k, fill: place.stop !== 0 },
      textShape({ ...meaning, role: 'tab-stop' }, place.finger, { x: at.x, y: at.y + middle * size }, size, 'digits'),
    ];
  });
}

function strings(board: Board): Shape[] {
  const k = growth(board);
  const end = xOf(board, board.top);
  return board.strings.flatMap(({ name, low }, string) => {
    const y = yOf(board, string);
    const letter = textShape(furniture('tab-letter'), name, { x: 6 * k, y: y + middle * labelSize * k }, labelSize * k, 'digits');
    return [lineShape(furniture('board'), xOf(board, low), y, end, y, 0.8 + string * 0.35), letter];
  });
}

/** The board with the hand and fingers of one note; bare for null. */
export function drawBoard(board: Board, note: PlanNote | null): readonly Shape[] {
  const playing = note === null ? [] : [...hand(board, note), ...fingers(board, note)];
  return [...scale(board), ...strings(board), ...playing];
}
