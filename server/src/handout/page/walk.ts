// From the picture that the engraving library has drawn to marks on paper.
import { type PictureNode, wordsIn } from '../../engraving/index.ts';
import type { FontBook } from './fonts.ts';
import { type Face, type Mark, type PathMark, short, type TextMark } from './marks.ts';
import { scaledPath } from './path.ts';

/** What an element takes over from those around it. */
interface Inherited {
  readonly fill: string;
  readonly stroke: string;
}

/** The library draws with these, in units: `currentColor` stands for ink. */
const root: Inherited = { fill: 'currentColor', stroke: 'currentColor' };

/** All marks of a drawing, in the order drawn. */
export function marksIn(element: PictureNode, fonts: FontBook, inherited: Inherited = root): readonly Mark[] {
  const own = { fill: element.attributes.fill ?? inherited.fill, stroke: element.attributes.stroke ?? inherited.stroke };
  switch (element.name) {
    case 'path':
      return pathMarks(element, own);
    case 'text':
      return textMarks(element, fonts);
    default:
      return element.children.flatMap((child) => marksIn(child, fonts, own));
  }
}

function pathMarks(element: PictureNode, { fill, stroke }: Inherited): readonly PathMark[] {
  const d = element.attributes.d ?? '';
  const pen = stroke === 'none' ? 0 : number(element, 'stroke-width', 1);
  if (d.includes('NaN') || (fill === 'none' && pen === 0)) return [];
  const dash = (element.attributes['stroke-dasharray'] ?? '').split(/[ ,]+/).map(Number);
  const [x0, y0, s] = scaling(element.attributes.transform) ?? [0, 0, 1];
  return [
    {
      kind: 'path',
      d: scaledPath(d, x0, y0, s),
      fill: fill !== 'none',
      pen,
      ends: 'flat',
      dash: dash.length >= 2 && dash.every((n) => n > 0) ? [dash[0]!, dash[1]!] : null,
    },
  ];
}

/** The one transform the library uses: scaled about a point. */
function scaling(transform: string | undefined): readonly [number, number, number] | null {
  const found = /translate\(\s*(-?[\d.]+)[ ,]+(-?[\d.]+)\s*\)\s*scale\(\s*(-?[\d.]+)/.exec(transform ?? '');
  return found ? [Number(found[1]), Number(found[2]), Number(found[3])] : null;
}

const number = (element: PictureNode, name: string, otherwise: number): number => {
  const value = Number.parseFloat(element.attributes[name] ?? '');
  return Number.isFinite(value) ? value : otherwise;
};

/** Size of a line step, and of raised or lowered parts of a chord symbol, by the library. */
const lineStep = 1.2;
const smallPart = 0.7;

function textMarks(element: PictureNode, fonts: FontBook): readonly TextMark[] {
  const size = number(element, 'font-size', 16);
  const face = faceOf(element.attributes);
  const anchor = anchorOf(element);
  const middle = element.attributes['dominant-baseline'] === 'middle' ? size * 0.3 : 0;
  let y = number(element, 'y', 0) + middle;
  return element.children.flatMap((line) => {
    if (line.attributes.dy !== undefined) y += lineStep * size;
    const x = number(line, 'x', number(element, 'x', 0));
    return lineMarks(line, { x: short(x), y: short(y), size, face, anchor }, fonts);
  });
}

/** A line of text; a chord symbol's raised and lowered parts follow the plain one. */
function lineMarks(line: PictureNode, base: Omit<TextMark, 'kind' | 'text' | 'stretch'>, fonts: FontBook): readonly TextMark[] {
  const marks: TextMark[] = [];
  const parts = [
    { text: line.text, size: base.size, dy: 0 },
    ...line.children.map((part) => ({ text: wordsIn(part), size: base.size * smallPart, dy: shift(part) * base.size * smallPart })),
  ];
  const width = parts.reduce((sum, part) => sum + fonts.width(part.text, base.face, part.size), 0);
  let x = base.anchor === 'start' ? base.x : base.anchor === 'middle' ? base.x - width / 2 : base.x - width;
  let y = base.y;
  const lone = parts.length === 1;
  for (const part of parts) {
    y += part.dy;
    if (part.text.trim() !== '') {
      marks.push({
        ...base,
        kind: 'text',
        text: part.text,
        size: short(part.size),
        x: lone ? base.x : short(x),
        y: short(y),
        anchor: lone ? base.anchor : 'start',
        stretch: 1,
      });
    }
    x += fonts.width(part.text, base.face, part.size);
  }
  return marks;
}

const shift = (part: PictureNode): number => Number.parseFloat(part.attributes.dy ?? '0') || 0;

function anchorOf(element: PictureNode): TextMark['anchor'] {
  const anchor = element.attributes['text-anchor'];
  return anchor === 'middle' || anchor === 'end' ? anchor : 'start';
}

/** Our face for a font that a tune or the library names: sans and typewriter are set in the sans, all else in the serif. */
export function faceOf(attributes: PictureNode['attributes']): Face {
  const family = (attributes['font-family'] ?? '').toLowerCase();
  if (/sans|helvetica|arial|courier|mono/.test(family)) return 'digits';
  if (attributes['font-weight'] === 'bold') return 'serif-bold';
  return attributes['font-style'] === 'italic' ? 'serif-italic' : 'serif';
}
