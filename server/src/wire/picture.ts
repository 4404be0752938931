// Shapes as a picture that stands in Markdown: black on white, so that it reads in every theme.
import type { Shape } from '../drawing/index.ts';

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** An address that holds the picture itself, shown `shownWidth` pixels wide. */
export function pictureAddress(shapes: readonly Shape[], { width, height }: PictureSize, shownWidth: number): string {
  const size = `width="${shownWidth}" height="${Math.ceil((shownWidth * height) / width)}" viewBox="0 0 ${Math.ceil(width)} ${Math.ceil(height)}"`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${size}><rect width="100%" height="100%" fill="#fff"/>${shapes.map(element).join('')}</svg>`;
  return `data:image/svg+xml;utf8,${encodeURIComponent(svg).replace(/[()']/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}`;
}

const black = '#000';
const paint = (filled: boolean, width: number): string =>
  filled ? `fill="${black}"` : `fill="none" stroke="${black}" stroke-width="${width}"`;

function element(shape: Shape): string {
  switch (shape.kind) {
    case 'line':
      return `<line x1="${shape.x1}" y1="${shape.y1}" x2="${shape.x2}" y2="${shape.y2}" ${paint(false, shape.width)}/>`;
    case 'path':
      return `<path d="${shape.d}" ${paint(shape.fill, shape.width)}/>`;
    case 'rect':
      return `<rect x="${shape.x}" y="${shape.y}" width="${shape.w}" height="${shape.h}" fill="${black}" fill-opacity="0.12"/>`;
    case 'circle':
      // White inside, so that the finger's number reads on it; a stopped place has the stronger ring.
      return `<circle cx="${shape.x}" cy="${shape.y}" r="${shape.r}" fill="#fff" stroke="${black}" stroke-width="${shape.fill ? 2 : 1}"/>`;
    case 'text':
      return `<text x="${shape.x}" y="${shape.y}" font-size="${shape.size}" font-family="sans-serif" text-anchor="${shape.anchor}">${escaped(shape.text)}</text>`;
  }
}

const signs: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => signs[sign]!);
