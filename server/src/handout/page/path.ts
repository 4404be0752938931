// Path data: scaled about a point, and the box it lies in.
import { short } from './marks.ts';

/** Numbers a command takes a turn. */
const sizes: Readonly<Record<string, number>> = { M: 2, L: 2, C: 6, S: 4, Z: 0 };

interface Step {
  readonly command: string;
  readonly numbers: readonly number[];
}

function stepsOf(d: string): readonly Step[] {
  return [...d.matchAll(/([MLCSZmlcsz])([^MLCSZmlcsz]*)/g)].map(([, command, rest]) => ({
    command: command!,
    numbers: (rest!.match(/-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/gi) ?? []).map(Number),
  }));
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

/** The box of all points a path names, control points too: never smaller than the ink without its pen. */
export function pathBox(d: string): Box {
  let [x, y] = [0, 0];
  let box = nothing;
  for (const { command, numbers } of stepsOf(d)) {
    const relative = command >= 'a';
    const size = sizes[command.toUpperCase()]!;
    for (let i = 0; size > 0 && i + size <= numbers.length; i += size) {
      const [fromX, fromY] = relative ? [x, y] : [0, 0];
      for (let k = 0; k < size; k += 2) {
        [x, y] = [fromX + numbers[i + k]!, fromY + numbers[i + k + 1]!];
        box = joined(box, { left: x, top: y, right: x, bottom: y });
      }
    }
  }
  return box;
}
