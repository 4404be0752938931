// Reads the ink of a drawn system from its vector paths: how high and how low it reaches at each unit of x. Nothing is measured.
import { type PictureNode, wordsIn } from './picture.ts';
import type { StaffInk } from './types.ts';

interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** A box and whether it belongs to a row that stands over the room for fingers. */
interface Stroke extends Box {
  readonly row: boolean;
}

/** The lines of a staff: what lies between them is no obstacle to anything. */
interface Lines {
  readonly top: number;
  readonly bottom: number;
}

const isBetween = (box: Box, lines: Lines): boolean => box.y1 >= lines.top - 0.5 && box.y2 <= lines.bottom + 1;

/** Names that the library gives to what it lays in rows; those below the staff count as ink all the same. */
const rowNames = new Set(['chord', 'annotation', 'part', 'tempo', 'ending', 'bar-number', 'dynamics']);

/** Pieces of a path, each with its own box: fine enough for slurs and beams, coarse enough to be quick. */
type Pieces = readonly Box[];

const numbers = /-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g;
const commands = /([CLMclmsz])([^CLMclmsz]*)/g;
const samples = 6;

function curve(from: number, a: number, b: number, to: number, t: number): number {
  const u = 1 - t;
  return u * u * u * from + 3 * u * u * t * a + 3 * u * t * t * b + t * t * t * to;
}

class PieceMaker {
  readonly pieces: Box[] = [];
  x = 0;
  y = 0;
  lastControl: readonly [number, number] | null = null;

  moveTo(x: number, y: number): void {
    this.x = x;
    this.y = y;
    this.lastControl = null;
  }

  lineTo(x: number, y: number): void {
    this.pieces.push({ x1: Math.min(this.x, x), y1: Math.min(this.y, y), x2: Math.max(this.x, x), y2: Math.max(this.y, y) });
    this.x = x;
    this.y = y;
    this.lastControl = null;
  }

  curveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): void {
    const { x: fromX, y: fromY } = this;
    for (let i = 1; i <= samples; i++) {
      const t = i / samples;
      this.lineTo(curve(fromX, ax, bx, x, t), curve(fromY, ay, by, y, t));
    }
    this.lastControl = [bx, by];
  }
}

/** Four corners joined by lines, which most paths are: staff and ledger lines, stems, bar lines, beams. */
const fourCorners = new RegExp(`^M ?${Array.from({ length: 4 }, () => '(-?[\\d.]+) (-?[\\d.]+)').join(' ?L ?')} ?z ?$`);

/** The box that such a path is if its sides are upright and level; a leaning one is more than its box. */
function rectangleOf(d: string): Box | null {
  const corners = fourCorners.exec(d);
  if (corners === null) return null;
  const [ax, ay, bx, by, cx, cy, dx, dy] = corners.slice(1).map(Number) as [number, number, number, number, number, number, number, number];
  const levelFirst = ay === by && bx === cx && cy === dy && dx === ax;
  const uprightFirst = ax === bx && by === cy && cx === dx && dy === ay;
  if (!levelFirst && !uprightFirst) return null;
  return { x1: Math.min(ax, cx), y1: Math.min(ay, cy), x2: Math.max(ax, cx), y2: Math.max(ay, cy) };
}

/** The library emits the commands `C L M c l m s z` only. */
function piecesOf(d: string): Pieces {
  const pen = new PieceMaker();
  let startX = 0;
  let startY = 0;
  for (const [, command, rest] of d.matchAll(commands)) {
    const n = (rest!.match(numbers) ?? []).map(Number);
    const relative = command! >= 'a';
    const size = command === 'C' || command === 'c' ? 6 : command === 's' ? 4 : 2;
    if (command === 'z') pen.moveTo(startX, startY);
    for (let i = 0; i + size <= n.length; i += size) {
      const dx = relative ? pen.x : 0;
      const dy = relative ? pen.y : 0;
      if (size === 6) pen.curveTo(n[i]! + dx, n[i + 1]! + dy, n[i + 2]! + dx, n[i + 3]! + dy, n[i + 4]! + dx, n[i + 5]! + dy);
      else if (size === 4) {
        const [bx, by] = pen.lastControl ?? [pen.x, pen.y];
        pen.curveTo(2 * pen.x - bx, 2 * pen.y - by, n[i]! + dx, n[i + 1]! + dy, n[i + 2]! + dx, n[i + 3]! + dy);
      } else if ((command === 'M' || command === 'm') && i === 0) {
        pen.moveTo(n[i]! + dx, n[i + 1]! + dy);
        startX = pen.x;
        startY = pen.y;
      } else pen.lineTo(n[i]! + dx, n[i + 1]! + dy);
    }
  }
  return pen.pieces;
}

interface Glyph {
  readonly pieces: Pieces;
  /** Around all pieces. */
  readonly box: Box;
}

/** Glyphs repeat: their outlines are kept by the text that follows the first point. */
const glyphs = new Map<string, Glyph>();
const mostGlyphs = 500;
const firstPoint = /^M\s*(-?[\d.]+)[ ,]+(-?[\d.]+)(?=[a-z\s])/;

const around = (pieces: Pieces): Box => ({
  x1: Math.min(...pieces.map((box) => box.x1)),
  y1: Math.min(...pieces.map((box) => box.y1)),
  x2: Math.max(...pieces.map((box) => box.x2)),
  y2: Math.max(...pieces.map((box) => box.y2)),
});

function glyphOf(shape: string): Glyph {
  let glyph = glyphs.get(shape);
  if (glyph === undefined) {
    const pieces = piecesOf(`M0 0${shape}`);
    glyph = { pieces, box: around(pieces) };
    if (glyphs.size < mostGlyphs) glyphs.set(shape, glyph);
  }
  return glyph;
}

const moved = (box: Box, x: number, y: number): Box => ({ x1: box.x1 + x, y1: box.y1 + y, x2: box.x2 + x, y2: box.y2 + y });

/** Most heads lie between the lines, where nothing counts: a glyph that does is left out as a whole. */
function placedPieces(d: string, staffs: readonly Lines[]): Pieces {
  const rectangle = rectangleOf(d);
  if (rectangle !== null) return [rectangle];
  const start = firstPoint.exec(d);
  if (start === null || /[CL]/.test(d)) return piecesOf(d);
  const { pieces, box } = glyphOf(d.slice(start[0].length));
  const x = Number(start[1]);
  const y = Number(start[2]);
  const whole = moved(box, x, y);
  return staffs.some((lines) => isBetween(whole, lines)) ? [] : pieces.map((piece) => moved(piece, x, y));
}

const scaling = /translate\(\s*(-?[\d.]+)[ ,]+(-?[\d.]+)\s*\)\s*scale\(\s*(-?[\d.]+)/;

/** The one transform the library uses: scaled about a point. */
function scaled(pieces: Pieces, transform: string): Pieces {
  const found = scaling.exec(transform);
  if (found === null) return pieces;
  const [x0, y0, s] = found.slice(1).map(Number) as [number, number, number];
  const at = (value: number, from: number) => from + s * (value - from);
  return pieces.map((box) => ({ x1: at(box.x1, x0), y1: at(box.y1, y0), x2: at(box.x2, x0), y2: at(box.y2, y0) }));
}

/** A text's box by the usual measures of a face: 0.8 of the size above the baseline, 0.22 below, 0.56 wide a character. */
function textBox({ attributes, children }: PictureNode): Pieces {
  const number = (name: string, fallback: number) => Number.parseFloat(attributes[name] ?? '') || fallback;
  const size = number('font-size', 16);
  const lines = Math.max(1, children.length);
  const widest = Math.max(...children.map((line) => wordsIn(line).length), 1);
  const width = widest * size * 0.56;
  const x = number('x', 0);
  const anchor = attributes['text-anchor'];
  const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
  const middle = attributes['dominant-baseline'] === 'middle' ? size * 0.3 : 0;
  const y = number('y', 0) + middle;
  return [{ x1: left, y1: y - size * 0.8, x2: left + width, y2: y + size * 0.22 + (lines - 1) * size * 1.2 }];
}

function pathPieces({ d, transform }: PictureNode['attributes'], staffs: readonly Lines[]): Pieces {
  if (d === undefined) return [];
  return transform === undefined ? placedPieces(d, staffs) : scaled(piecesOf(d), transform);
}

function piecesIn(node: PictureNode, staffs: readonly Lines[]): Pieces {
  if (node.name === 'path') return pathPieces(node.attributes, staffs);
  return node.name === 'text' && wordsIn(node).trim() !== '' ? textBox(node) : [];
}

function collect(node: PictureNode, staffs: readonly Lines[], into: Stroke[], inRow: boolean): void {
  const row = inRow || rowNames.has(node.attributes['data-name'] ?? '');
  for (const box of piecesIn(node, staffs)) into.push({ ...box, row });
  if (node.name !== 'text') for (const child of node.children) collect(child, staffs, into, row);
}

interface Builder {
  peak: number | null;
  readonly top: (number | null)[];
  readonly bottom: (number | null)[];
}

function put(builder: Builder, box: Stroke, last: number, lines: Lines): void {
  if (isBetween(box, lines)) return;
  builder.peak = Math.min(builder.peak ?? box.y1, box.y1);
  if (box.row && box.y2 < lines.top) return;
  const from = Math.max(0, Math.floor(box.x1));
  const to = Math.min(last, Math.ceil(box.x2));
  for (let x = from; x <= to; x++) {
    const top = builder.top[x];
    const bottom = builder.bottom[x];
    if (top == null || box.y1 < top) builder.top[x] = box.y1;
    if (bottom == null || box.y2 > bottom) builder.bottom[x] = box.y2;
  }
}

const emptyBuilder = (last: number): Builder => {
  const nothing = (): (number | null)[] => new Array<number | null>(last + 1).fill(null);
  return { peak: null, top: nothing(), bottom: nothing() };
};

/**
 * The ink of each staff beyond its lines. `borders` are the y between one staff's ground and the next's; what
 * stands between two staves counts to the one on whose side its middle lies. What reaches over both (a joined bar line)
 * counts to none.
 */
export function inkOf(root: PictureNode, staffs: readonly Lines[], borders: readonly number[], width: number): readonly StaffInk[] {
  const strokes: Stroke[] = [];
  collect(root, staffs, strokes, false);
  const last = Math.ceil(width) + 40;
  const builders = staffs.map(() => emptyBuilder(last));
  const staffAt = (y: number): number => borders.filter((border) => y > border).length;
  for (const box of strokes) {
    const staff = staffAt((box.y1 + box.y2) / 2);
    const joined = box.y2 - box.y1 > 60 && staffAt(box.y1) !== staffAt(box.y2);
    if (!joined) put(builders[staff]!, box, last, staffs[staff]!);
  }
  return builders;
}
