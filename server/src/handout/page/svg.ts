// A page as SVG: the same marks, text as text in our fonts. Text from a tune is escaped.
import { escaped } from '../xml.ts';
import { type FontBook, type FontName, fontNames, type PlacedRun, placedRuns } from './fonts.ts';
import { type Mark, short, type TextMark } from './marks.ts';
import type { Page, Placed, Sheet } from './sheet.ts';

const families: Readonly<Record<FontName, string>> = {
  serif: 'Bullfiddle Serif',
  'serif-italic': 'Bullfiddle Serif',
  'serif-bold': 'Bullfiddle Serif',
  digits: 'Bullfiddle Sans',
  accidentals: 'Bullfiddle Accidentals',
};
const weight = (font: FontName): string => (font === 'serif-bold' || font === 'digits' ? '600' : '400');

/** CSS classes of the faces, fallbacks named for where our fonts are not at hand. */
export const faceRules = fontNames
  .map((font) => {
    const rest = font === 'digits' ? 'sans-serif' : 'serif';
    return `.${font}{font-family:"${families[font]}",${rest};font-weight:${weight(font)};font-style:${font === 'serif-italic' ? 'italic' : 'normal'}}`;
  })
  .join('');

/** `@font-face` rules with the fonts inside. */
export function fontRules(fonts: FontBook): string {
  return fontNames
    .map((font) => {
      const style = font === 'serif-italic' ? 'italic' : 'normal';
      return `@font-face{font-family:"${families[font]}";font-weight:${weight(font)};font-style:${style};src:url(data:font/ttf;base64,${base64(fonts.files[font])})}`;
    })
    .join('');
}

/** How text stands in an SVG: as text with the fonts inside the file, as text for a page that brings the fonts, or drawn. */
export type SvgText = 'fonts-inside' | 'fonts-outside' | 'outlines';

/** One page as an SVG document of its own. */
export function svgPage(sheet: Sheet, page: Page, fonts: FontBook, text: SvgText): string {
  const { width, height } = sheet.paper;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${short(width)}pt" height="${short(height)}pt" viewBox="0 0 ${short(width)} ${short(height)}" role="img">`,
    `<title>${escaped(sheet.title)}</title>`,
    ...(text === 'fonts-inside' ? [`<style>${fontRules(fonts)}${faceRules}</style>`] : []),
    `<rect width="100%" height="100%" fill="#fff"/>`,
    ...page.placed.map((placed) => group(placed, fonts, text)),
    '</svg>\n',
  ].join('\n');
}

/** Marks as SVG elements, for a picture in a page that brings the fonts. */
export const markElements = (marks: readonly Mark[], fonts: FontBook): string =>
  marks.map((mark) => markElement(mark, fonts, 'fonts-outside')).join('');

const group = (placed: Placed, fonts: FontBook, text: SvgText): string =>
  `<g transform="translate(${short(placed.x)} ${short(placed.y)}) scale(${placed.scale.toFixed(5)})">${placed.marks.map((mark) => markElement(mark, fonts, text)).join('')}</g>`;

function markElement(mark: Mark, fonts: FontBook, text: SvgText): string {
  if (mark.kind === 'text') return textElements(mark, fonts, text);
  const pen =
    mark.pen === 0 ? '' : ` stroke="#000" stroke-width="${short(mark.pen)}"${mark.ends === 'round' ? ' stroke-linecap="round"' : ''}`;
  const dash = mark.dash === null ? '' : ` stroke-dasharray="${mark.dash.join(' ')}"`;
  return `<path d="${mark.d}"${mark.fill ? '' : ' fill="none"'}${pen}${dash}/>`;
}

const placeOf = ({ x, y, stretch }: PlacedRun): string =>
  stretch === 1 ? `x="${short(x)}" y="${short(y)}"` : `transform="matrix(${short(stretch)} 0 0 1 ${short(x)} ${short(y)})"`;

function textElements(mark: TextMark, fonts: FontBook, text: SvgText): string {
  return placedRuns(fonts, mark)
    .map((run) => {
      if (text === 'outlines') return `<path d="${fonts.outline(run)}"/>`;
      return `<text class="${run.font}" ${placeOf(run)} font-size="${short(run.size)}" xml:space="preserve">${escaped(run.text)}</text>`;
    })
    .join('');
}

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes as base64 (RFC 4648). */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const four = [18, 12, 6, 0].map((by) => letters[(three >> by) & 63]!).join('');
    text += i + 2 < bytes.length ? four : four.slice(0, bytes.length - i + 1).padEnd(4, '=');
  }
  return text;
}
