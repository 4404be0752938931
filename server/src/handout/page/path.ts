// Path data: scaled about a point, and the box it lies in.
import { short } from './marks.ts';

/** Numbers a command takes a turn. */
const sizes: Readonly<Record<string, number>> = { M: 2, L: 2, C: 6, S: 4, Z: 0 };

interface Step {
  readonly command: string;
  readonly numbers: readonly number[];
}

const token = /[MLCSZmlcsz]|-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g;

function stepsOf(d: string): readonly Step[] {
  const steps: { command: string; numbers: number[] }[] = [];
  for (const found of d.match(token) ?? []) {
    if (found >= 'A') steps.push({ command: found, numbers: [] });
    else steps.at(-1)?.numbers.push(Number(found));
  }
  return steps;
}

/** The path scaled by `s` about (x0, y0), rounded. */
export function scaledPath(d: string, x0: number, y0: number, s: number): string {
  return stepsOf(d)
    .map(({ command, numbers }, i) => {
      // The first move is absolute whichever letter it has.
      const absolute = command < 'a' || i === 0;
      const moved = numbers.map((n, k) => {
        const at = k % 2 === 0 ? x0 : y0;
        return absolute && (command !== 'm' || k < 2) ? at + s * (n - at) : s * n;
      });
      return command + moved.map(short).join(' ');
    })
    .join('');
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const nothing: Box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };

export const joined = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  top: Math.min(a.top, b.top),
  right: Math.max(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
});

/** A piece of a path in absolute coordinates: three points of a curve, one of a move or a line, none of a close. */
export interface Piece {
  readonly kind: 'move' | 'line' | 'curve' | 'close';
  readonly points: readonly number[];
}

const kinds = { M: 'move', L: 'line', C: 'curve', S: 'curve', Z: 'close' } as const;

/** The pieces of a path. A smooth curve gets its first control point, the mirror image of the last one before (SVG 1.1, 8.3.6). */
export function piecesOf(d: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const { command, numbers } of stepsOf(d)) {
    const letter = command.toUpperCase() as keyof typeof kinds;
    const size = sizes[letter]!;
    if (letter === 'Z') {
      pieces.push({ kind: 'close', points: [] });
      [x, y] = [startX, startY];
    }
    for (let i = 0; size > 0 && i + size <= numbers.length; i += size) {
      const [fromX, fromY] = command >= 'a' ? [x, y] : [0, 0];
      const named = numbers.slice(i, i + size).map((n, k) => n + (k % 2 === 0 ? fromX : fromY));
      const points = letter === 'S' ? [...mirrored(pieces.at(-1), x, y), ...named] : named;
      [x, y] = points.slice(-2) as [number, number];
      // Points that follow a move without a letter are lines.
      const kind = letter === 'M' && i > 0 ? 'line' : kinds[letter];
      if (kind === 'move') [startX, startY] = [x, y];
      pieces.push({ kind, points });
    }
  }
  return pieces;
}

function mirrored(before: Piece | undefined, x: number, y: number): readonly [number, number] {
  return before?.kind === 'curve' ? [2 * x - before.points[2]!, 2 * y - before.points[3]!] : [x, y];
}

/** The box of all points of a path, control points too: never smaller than the ink without its pen. */
export function pathBox(d: string): Box {
  let { left, top, right, bottom } = nothing;
  for (const { points } of piecesOf(d)) {
    for (let k = 0; k < points.length; k += 2) {
      left = Math.min(left, points[k]!);
      right = Math.max(right, points[k]!);
      top = Math.min(top, points[k + 1]!);
      bottom = Math.max(bottom, points[k + 1]!);
    }
  }
  return { left, top, right, bottom };
}
