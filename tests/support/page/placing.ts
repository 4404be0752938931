// Measures on the screen how far each number of a tab stands from its notehead, and how close marks come to each other. The browser's own boxes and outlines, nothing that we compute.
import type { Page } from 'playwright-core';
import { readBook } from '../../../server/src/abc/index.ts';
import { corpusFiles } from '../corpora.ts';
import { sceneOf } from './scenes.ts';

/** The corpus tunes as bass parts, each a text of its own: a clef put where the key is declared, nothing else. */
export const bassTunes = (): string[] =>
  corpusFiles().flatMap(({ text }) =>
    readBook(text).tunes.map(({ at, tree }) =>
      text
        .slice(at, at + tree.length)
        .replace(/\r\n?/g, '\n')
        .replace(/^K:[^\n%]*/m, (key) => `${key.trimEnd()} clef=bass octave=-2`),
    ),
  );

export interface Placing {
  /** Numbers that were measured. */
  readonly numbers: number;
  /** The greatest distance of a number's middle from the middle of the nearest head, in px at a width of 740. */
  readonly farthest: number;
  /** The least air between two numbers of a string, and between a finger over the staff and a tie or slur of it, in the same px. */
  readonly closest: number;
  readonly fromArc: number;
  /** Pairs of our texts over each other, or over words or heads of the engraving. */
  readonly covered: readonly string[];
}

/** Draws a text's first tune in an open page and measures every number of its tab. */
export async function placingOf(page: Page, text: string, version: number): Promise<Placing> {
  const scene = sceneOf(text, 0, version);
  return page.evaluate(async (shown) => {
    const stand = window as unknown as { posted: { kind: string; revision?: { document: number } }[]; send(message: unknown): void };
    stand.send({ kind: 'scene', scene: shown, look: { density: 'all', layout: 'stacked', follow: 'mouse' } });
    const drawn = () => stand.posted.some((each) => each.kind === 'painted' && each.revision?.document === shown.revision.document);
    while (!drawn()) await new Promise((resolve) => setTimeout(resolve, 5));
    let numbers = 0;
    let farthest = 0;
    let closest = Number.POSITIVE_INFINITY;
    let fromArc = Number.POSITIVE_INFINITY;
    const covered: string[] = [];
    /** What a text of ours covers: its advance (the browser's box is rounded outwards), from the baseline to the height of a capital. */
    const inkOf = (element: SVGTextElement, scale: number) => {
      const { a, e, f } = element.getScreenCTM()!;
      const width = element.getComputedTextLength() * a;
      const left = element.getAttribute('text-anchor') === 'start' ? e : e - width / 2;
      const size = Number(element.getAttribute('font-size'));
      return { text: element.textContent, left, right: left + width, top: f - 0.72 * size * scale, bottom: f };
    };
    for (const system of document.querySelectorAll<HTMLElement>('.system')) {
      // What is out of view is not laid out, and has no boxes.
      system.style.contentVisibility = 'visible';
      const scale = system.querySelector('svg')!.getScreenCTM()!.a;
      const middle = (element: Element) => {
        const { left, right } = element.getBoundingClientRect();
        return (left + right) / 2;
      };
      const headElements = [...system.querySelectorAll('.abcjs-notehead, [data-name="grace"] path')];
      const heads = headElements.map(middle);
      for (const number of system.querySelectorAll('.tab-stop')) {
        const x = middle(number);
        numbers++;
        farthest = Math.max(farthest, Math.min(...heads.map((head) => Math.abs(head - x))) / scale);
      }
      const texts = [...system.querySelectorAll<SVGTextElement>('.marks text')];
      const inks = texts.map((text) => inkOf(text, scale));
      const rows = texts.map((text, i) => ({
        ...inks[i]!,
        stop: text.classList.contains('tab-stop'),
        finger: text.classList.contains('finger'),
      }));
      for (const [i, a] of rows.entries()) {
        for (const b of rows.slice(i + 1)) {
          const apart = Math.max(a.left - b.right, b.left - a.right) / scale;
          if (a.stop && b.stop && Math.abs(a.bottom - b.bottom) < 4 * scale) closest = Math.min(closest, apart);
          if (apart < 0 && a.top < b.bottom - 0.5 && b.top < a.bottom - 0.5) covered.push(`${a.text} ${b.text}`);
        }
      }
      const others = [...headElements, ...system.querySelectorAll('.engraving text')].map((element) => {
        const { left, right, top, bottom } = element.getBoundingClientRect();
        // A line of words takes more height than its letters.
        const air = element.localName === 'text' ? (bottom - top) * 0.2 : 0;
        return { what: element.localName === 'text' ? element.textContent : 'head', left, right, top: top + air, bottom: bottom - air };
      });
      for (const a of rows)
        for (const b of others)
          if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) covered.push(`${a.text} ${b.what}`);
      for (const arc of system.querySelectorAll<SVGPathElement>('[data-name="slur"], [data-name="tie"]')) {
        const box = arc.getBoundingClientRect();
        const near = rows.filter(({ finger, left, right, top, bottom }) => {
          const margin = 4 * scale;
          return finger && left < box.right + margin && right > box.left - margin && top < box.bottom + margin && bottom > box.top - margin;
        });
        if (near.length === 0) continue;
        const place = arc.getScreenCTM()!;
        const length = arc.getTotalLength();
        for (let at = 0; at <= length; at += 0.5) {
          const { x, y } = arc.getPointAtLength(at).matrixTransform(place);
          for (const { left, right, top, bottom } of near) {
            const away = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom)) / scale;
            fromArc = Math.min(fromArc, away);
          }
        }
      }
    }
    return { numbers, farthest, closest, fromArc, covered };
  }, scene);
}
