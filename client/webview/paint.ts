// Shapes to SVG elements. Ink and roles become classes; the style sheet has the colours.
import type { FindingShape, Shape } from '../../server/src/drawing/index.ts';
import { svg, text } from './dom.ts';

const faces: Readonly<Record<Extract<Shape, { kind: 'text' }>['face'], string>> = {
  digits: 'digits',
  serif: 'serif',
  'serif-italic': 'serif italic',
  'serif-bold': 'serif bold',
};

type Tag = 'line' | 'path' | 'rect' | 'circle' | 'text';
type Attributes = Readonly<Record<string, string>>;

interface Drawing {
  readonly tag: Tag;
  readonly attributes: Attributes;
  /** Only of a text, with the place of the group that holds it: moved by its group, a text is not laid out anew. */
  readonly text: { readonly said: string; readonly place: string } | null;
}

/** A mark as it stands in the page. Marks of one `sort` have the same attributes with other values. */
export interface Painted extends Drawing {
  readonly element: SVGElement;
  readonly sort: string;
}

const tags: Readonly<Record<Shape['kind'], Tag>> = { line: 'line', path: 'path', rect: 'rect', circle: 'circle', text: 'text' };

/** To a hundredth of a unit: finer than any screen, so that what did not move is the same. */
const short = (value: number): string => String(Math.round(value * 100) / 100);

function geometry(shape: Shape): Readonly<Record<string, string | number>> {
  switch (shape.kind) {
    case 'line':
      return { x1: shape.x1, y1: shape.y1, x2: shape.x2, y2: shape.y2, 'stroke-width': shape.width };
    case 'path':
      return shape.fill ? { d: shape.d } : { d: shape.d, 'stroke-width': shape.width };
    case 'rect':
      return { x: shape.x, y: shape.y, width: shape.w, height: shape.h, rx: 2 };
    case 'circle':
      return { cx: shape.x, cy: shape.y, r: shape.r };
    case 'text':
      return { 'font-size': shape.size, 'text-anchor': shape.anchor };
  }
}

const classesOf = (shape: Shape): string =>
  [shape.role, shape.ink, shape.kind === 'text' ? faces[shape.face] : '', shape.kind === 'path' && shape.fill ? 'filled' : '']
    .filter((each) => each !== '')
    .join(' ');

/** A shape that is spoken can be reached by the keyboard; all others are silent. */
const voiceOf = (shape: Shape): Attributes =>
  shape.spoken === null
    ? { 'aria-hidden': 'true' }
    : { role: 'button', 'aria-haspopup': 'dialog', 'aria-label': shape.spoken, tabindex: '-1' };

function placeOf({ x, y, stretch }: Extract<Shape, { kind: 'text' }>): string {
  const place = `translate(${short(x)} ${short(y)})`;
  return stretch === 1 ? place : `${place} scale(${short(stretch)} 1)`;
}

function drawingOf(shape: Shape, classes: string, voice: Attributes): Drawing {
  const attributes: Record<string, string> = { class: classes, ...voice };
  for (const [name, value] of Object.entries(geometry(shape))) attributes[name] = typeof value === 'number' ? short(value) : value;
  const text = shape.kind === 'text' ? { said: shape.text, place: placeOf(shape) } : null;
  return { tag: tags[shape.kind], attributes, text };
}

function elementOf({ tag, attributes, text: words }: Drawing): SVGElement {
  if (words === null) return svg(tag, attributes);
  return svg('g', { transform: words.place }, svg(tag, attributes, text(words.said)));
}

/** The element of a mark that has its meaning: what is spoken and gets the focus. */
export const meaningOf = (mark: Element): SVGElement => (mark.localName === 'g' ? mark.firstElementChild : mark) as SVGElement;

/** Marks of one sort can be changed into each other. */
export const sortOf = (shape: Shape): string => `${shape.kind} ${classesOf(shape)} ${shape.spoken === null ? 'silent' : 'spoken'}`;

/** A mark for a shape: a new one, or `old`, of the same sort, with what differs changed. */
export function paintMark(shape: Shape, sort: string, old: Painted | null): Painted {
  const next = drawingOf(shape, classesOf(shape), voiceOf(shape));
  if (old === null) return { ...next, sort, element: elementOf(next) };
  const { element } = old;
  const own = meaningOf(element);
  for (const name in next.attributes) if (next.attributes[name] !== old.attributes[name]) own.setAttribute(name, next.attributes[name]!);
  if (next.text !== null && next.text.place !== old.text?.place) element.setAttribute('transform', next.text.place);
  if (next.text !== null && next.text.said !== old.text?.said) own.firstChild!.nodeValue = next.text.said;
  return { ...next, sort, element };
}

/** One shape. */
export const paintShape = (shape: Shape): SVGElement => elementOf(drawingOf(shape, classesOf(shape), voiceOf(shape)));

/** A finding's band with its message as a tip. */
export function paintFinding(shape: FindingShape): SVGElement {
  const element = elementOf(drawingOf(shape, `finding ${shape.severity}`, {}));
  element.append(svg('title', {}, text(shape.spoken ?? '')));
  return element;
}
