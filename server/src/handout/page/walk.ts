// From the picture that the engraving library has drawn to marks on paper.
import type { FontBook } from './fonts.ts';
import { type Face, type Mark, type PathMark, short, type TextMark } from './marks.ts';
import type { PaperElement } from './paper-dom.ts';
import { scaledPath } from './path.ts';

/** What an element takes over from those around it. */
interface Inherited {
  readonly fill: string;
  readonly stroke: string;
}

/** The library draws with these, in units: `currentColor` stands for ink. */
const root: Inherited = { fill: 'currentColor', stroke: 'currentColor' };

/** All marks of a drawing, in the order drawn. */
export function marksIn(element: PaperElement, fonts: FontBook, inherited: Inherited = root): readonly Mark[] {
  const own = { fill: element.getAttribute('fill') ?? inherited.fill, stroke: element.getAttribute('stroke') ?? inherited.stroke };
  switch (element.nodeName) {
    case 'path':
      return pathMarks(element, own);
    case 'text':
      return textMarks(element, fonts);
    case 'style':
    case 'title':
      return [];
    default:
      return element.children.flatMap((child) => marksIn(child, fonts, own));
  }
}

function pathMarks(element: PaperElement, { fill, stroke }: Inherited): readonly PathMark[] {
  const d = element.getAttribute('d') ?? '';
  const pen = stroke === 'none' ? 0 : number(element, 'stroke-width', 1);
  if (d.includes('NaN') || (fill === 'none' && pen === 0)) return [];
  const dash = (element.getAttribute('stroke-dasharray') ?? '').split(/[ ,]+/).map(Number);
  const [x0, y0, s] = scaling(element.getAttribute('transform')) ?? [0, 0, 1];
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
function scaling(transform: string | null): readonly [number, number, number] | null {
  const found = /translate\(\s*(-?[\d.]+)[ ,]+(-?[\d.]+)\s*\)\s*scale\(\s*(-?[\d.]+)/.exec(transform ?? '');
  return found ? [Number(found[1]), Number(found[2]), Number(found[3])] : null;
}

const number = (element: PaperElement, name: string, otherwise: number): number => {
  const value = Number.parseFloat(element.getAttribute(name) ?? '');
  return Number.isFinite(value) ? value : otherwise;
};

/** Size of a line step, and of raised or lowered parts of a chord symbol, by the library. */
const lineStep = 1.2;
const smallPart = 0.7;

function textMarks(element: PaperElement, fonts: FontBook): readonly TextMark[] {
  const size = number(element, 'font-size', 16);
  const face = faceOf(element);
  const anchor = anchorOf(element);
  const middle = element.getAttribute('dominant-baseline') === 'middle' ? size * 0.3 : 0;
  let y = number(element, 'y', 0) + middle;
  return element.children.flatMap((line) => {
    if (line.getAttribute('dy') !== null) y += lineStep * size;
    const x = number(line, 'x', number(element, 'x', 0));
    return lineMarks(line, { x: short(x), y: short(y), size, face, anchor }, fonts);
  });
}

/** A line of text; a chord symbol's raised and lowered parts follow the plain one. */
function lineMarks(line: PaperElement, base: Omit<TextMark, 'kind' | 'text' | 'stretch'>, fonts: FontBook): readonly TextMark[] {
  const plain = line.childNodes.filter((node) => node.nodeType === 3).map((node) => node.textContent);
  const marks: TextMark[] = [];
  const parts = [
    { text: plain.join(''), size: base.size, dy: 0 },
    ...line.children.map((part) => ({ text: part.textContent, size: base.size * smallPart, dy: shift(part) * base.size * smallPart })),
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

const shift = (part: PaperElement): number => Number.parseFloat(part.getAttribute('dy') ?? '0') || 0;

function anchorOf(element: PaperElement): TextMark['anchor'] {
  const anchor = element.getAttribute('text-anchor');
  return anchor === 'middle' || anchor === 'end' ? anchor : 'start';
}

/** Our face for a font that a tune or the library names: sans and typewriter are set in the sans, all else in the serif. */
export function faceOf(element: PaperElement): Face {
  const family = (element.getAttribute('font-family') ?? '').toLowerCase();
  if (/sans|helvetica|arial|courier|mono/.test(family)) return 'digits';
  if (element.getAttribute('font-weight') === 'bold') return 'serif-bold';
  return element.getAttribute('font-style') === 'italic' ? 'serif-italic' : 'serif';
}
