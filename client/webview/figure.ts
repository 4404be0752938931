// How wide the figures of the page's own face are: the editor's user chooses it, and stops are set apart by it.

let known: number | null = null;

/** Width of a figure in the bold of the page's face, as a share of its size; measured once, figures all have one width. */
export function figureWidth(): number {
  known ??= measured();
  return known;
}

function measured(): number {
  const size = 100;
  const pen = document.createElement('canvas').getContext('2d')!;
  pen.font = `700 ${size}px ${getComputedStyle(document.body).fontFamily}`;
  return Math.max(...Array.from('0123456789', (figure) => pen.measureText(figure).width)) / size;
}
