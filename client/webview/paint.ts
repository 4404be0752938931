// Shapes to SVG elements. Ink and roles become classes; the style sheet has the colours.
import type { FindingShape, Shape } from '../../server/src/drawing/index.ts';
import { svg, text } from './dom.ts';

const faces: Readonly<Record<Extract<Shape, { kind: 'text' }>['face'], string>> = {
  digits: 'digits',
  serif: 'serif',
  'serif-italic': 'serif italic',
  'serif-bold': 'serif bold',
};

function geometry(shape: Shape): SVGElement {
  switch (shape.kind) {
    case 'line':
      return svg('line', { x1: shape.x1, y1: shape.y1, x2: shape.x2, y2: shape.y2, 'stroke-width': shape.width });
    case 'path':
      return svg('path', shape.fill ? { d: shape.d, class: 'filled' } : { d: shape.d, 'stroke-width': shape.width });
    case 'rect':
      return svg('rect', { x: shape.x, y: shape.y, width: shape.w, height: shape.h, rx: 2 });
    case 'circle':
      return svg('circle', { cx: shape.x, cy: shape.y, r: shape.r });
    case 'text':
      return svg('text', { x: shape.x, y: shape.y, 'font-size': shape.size, 'text-anchor': shape.anchor }, text(shape.text));
  }
}

const classesOf = (shape: Shape): string =>
  [shape.role, shape.ink, shape.kind === 'text' ? faces[shape.face] : '', shape.kind === 'path' && shape.fill ? 'filled' : '']
    .filter((each) => each !== '')
    .join(' ');

/** One shape. A shape that is spoken can be reached by the keyboard; all others are silent. */
export function paintShape(shape: Shape): SVGElement {
  const element = geometry(shape);
  element.setAttribute('class', classesOf(shape));
  if (shape.spoken === null) element.setAttribute('aria-hidden', 'true');
  else {
    element.setAttribute('role', 'button');
    element.setAttribute('aria-label', shape.spoken);
    element.setAttribute('tabindex', '-1');
  }
  return element;
}

/** A finding's band with its message as a tip. */
export function paintFinding(shape: FindingShape): SVGElement {
  const element = geometry(shape);
  element.setAttribute('class', `finding ${shape.severity}`);
  element.append(svg('title', {}, text(shape.spoken ?? '')));
  return element;
}
