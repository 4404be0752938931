// Words longer than what is left of their line: the library lets them run over its end, where nothing shows them.
import { type Recorded, RecordedText, wordsIn } from './picture.ts';

/** What may stand further left than its note: a syllable may not. */
const movable = new Set(['chord', 'annotation']);
/** Width of a letter as a share of its size, the widest that a text may have on the whole. */
const widestLetter = 0.8;
/** Kept between two texts of a row. */
const rowGap = 8;

interface Text {
  readonly node: RecordedText;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly letters: number;
}

const numberOf = (node: Recorded, name: string, fallback: number): number => Number.parseFloat(node.getAttribute(name) ?? '') || fallback;

function textsIn(node: Recorded): Text[] {
  if (!(node instanceof RecordedText)) return node.children.flatMap(textsIn);
  const letters = Math.max(0, ...node.children.map((line) => wordsIn(line).trim().length));
  return [{ node, x: numberOf(node, 'x', 0), y: numberOf(node, 'y', 0), size: numberOf(node, 'font-size', 16), letters }];
}

const widthOf = ({ node }: Text): number => node.getBBox().width;

/** The share of a text's width that lies right of its x. */
function shareRight({ node }: Text): number {
  const anchor = node.getAttribute('text-anchor');
  return anchor === 'middle' ? 0.5 : anchor === 'end' ? 0 : 1;
}

function moveTo({ node }: Text, x: number): void {
  node.setAttribute('x', x.toFixed(2));
  for (const line of node.children) if (line.getAttribute('x') !== null) line.setAttribute('x', x.toFixed(2));
}

/** How far left a text may begin for what stands before it in its row. */
function freeFrom(text: Text, texts: readonly Text[]): number {
  const before = texts.filter((other) => other.x < text.x && Math.abs(other.y - text.y) < Math.max(other.size, text.size));
  return Math.max(0, ...before.map((other) => other.x + widthOf(other) * shareRight(other) + rowGap));
}

/**
 * Moves words of the picture just drawn to the left so that they end by `right`, as far as their row is free.
 * Returns the x that the picture reaches to: `right`, or more where that is not enough. Measures only texts that may be too long.
 */
export function pullIn(picture: Recorded, right: number): number {
  const texts = textsIn(picture);
  let reach = right;
  for (const text of texts) {
    if (text.x + text.letters * text.size * widestLetter * shareRight(text) <= right) continue;
    const width = widthOf(text);
    const over = text.x + width * shareRight(text) - right;
    if (over <= 0) continue;
    const left = text.x - width * (1 - shareRight(text));
    const by = movable.has(text.node.getAttribute('data-name') ?? '') ? Math.min(over, Math.max(0, left - freeFrom(text, texts))) : 0;
    if (by > 0) moveTo(text, text.x - by);
    reach = Math.max(reach, right + over - by);
  }
  return reach;
}
