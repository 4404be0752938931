// What is put on paper: filled or drawn paths and runs of text, nothing else. Black on white.
import type { Shape } from '../../drawing/shapes.ts';

export type Face = Extract<Shape, { kind: 'text' }>['face'];

export interface PathMark {
  readonly kind: 'path';
  /** SVG path data with the commands M L C Z m l c s z. */
  readonly d: string;
  readonly fill: boolean;
  /** Width of the pen; 0 draws no line. */
  readonly pen: number;
  readonly ends: 'flat' | 'round';
  readonly dash: readonly [number, number] | null;
}

export interface TextMark {
  readonly kind: 'text';
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly face: Face;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Width as a share of what the face gives. */
  readonly stretch: number;
}

export type Mark = PathMark | TextMark;

/** Coordinates to a hundredth: finer is below what print shows, and it makes files smaller. */
export const short = (n: number): number => Math.round(n * 100) / 100;

export const linePath = (x1: number, y1: number, x2: number, y2: number, pen: number, ends: PathMark['ends'] = 'flat'): PathMark => ({
  kind: 'path',
  d: `M${short(x1)} ${short(y1)}L${short(x2)} ${short(y2)}`,
  fill: false,
  pen,
  ends,
  dash: null,
});

/** Share of the radius at which four cubic curves come nearest to a circle. */
const roundness = 0.5523;

function circlePath(x: number, y: number, r: number): string {
  const k = r * roundness;
  const at = (...ns: number[]): string => ns.map(short).join(' ');
  return [
    `M${at(x + r, y)}`,
    `C${at(x + r, y + k, x + k, y + r, x, y + r)}`,
    `C${at(x - k, y + r, x - r, y + k, x - r, y)}`,
    `C${at(x - r, y - k, x - k, y - r, x, y - r)}`,
    `C${at(x + k, y - r, x + r, y - k, x + r, y)}Z`,
  ].join('');
}

/** A shape of the sheet as it is printed: computed and pinned alike, solid. Findings are for the screen and give nothing. */
export function marksOf(shape: Shape): readonly Mark[] {
  if (shape.role === 'finding') return [];
  const solid = { kind: 'path', fill: true, pen: 0, ends: 'flat', dash: null } as const;
  switch (shape.kind) {
    case 'line':
      return [linePath(shape.x1, shape.y1, shape.x2, shape.y2, shape.width, shape.role === 'slide' ? 'round' : 'flat')];
    case 'path':
      return [{ ...solid, d: shape.d, fill: shape.fill, pen: shape.fill ? 0 : shape.width, ends: 'round' }];
    case 'rect':
      return [{ ...solid, d: boxPath(shape.x, shape.y, shape.w, shape.h) }];
    case 'circle':
      return [{ ...solid, d: circlePath(shape.x, shape.y, shape.r), fill: shape.fill, pen: shape.fill ? 0 : 0.6 }];
    case 'text':
      return [textMark(shape)];
  }
}

const textMark = ({ kind, x, y, text, size, face, anchor, stretch }: Extract<Shape, { kind: 'text' }>): TextMark => ({
  kind,
  x,
  y,
  text,
  size,
  face,
  anchor,
  stretch,
});

function boxPath(x: number, y: number, w: number, h: number): string {
  const [left, top, right, bottom] = [x, y, x + w, y + h].map(short);
  return `M${left} ${top}L${right} ${top}L${right} ${bottom}L${left} ${bottom}Z`;
}
