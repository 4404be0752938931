// How wide the figures of the page's own face are: the editor's user chooses it, and stops are set apart by it.
import type { Look } from '../../server/src/drawing/index.ts';

type Widths = NonNullable<Look['figures']>;

let known: Widths | null = null;

/** Widths of a figure as shares of its size, in the weights that the style sheet gives the stops; measured once. */
export function figureWidths(): Widths {
  known ??= { pinned: widthAt(700), computed: widthAt(400) };
  return known;
}

function widthAt(weight: number): number {
  const size = 100;
  const pen = document.createElement('canvas').getContext('2d')!;
  pen.font = `${weight} ${size}px ${getComputedStyle(document.body).fontFamily}`;
  return Math.max(...Array.from('0123456789', (figure) => pen.measureText(figure).width)) / size;
}
