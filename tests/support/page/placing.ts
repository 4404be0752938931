// Measures on the screen how far each number of a tab stands from its notehead. The browser's own boxes, nothing that we compute.
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
}

/** Draws a text's first tune in an open page and measures every number of its tab. */
export async function placingOf(page: Page, text: string, version: number): Promise<Placing> {
  const scene = sceneOf(text, 0, version);
  return page.evaluate(async (shown) => {
    const stand = window as unknown as { posted: { kind: string; revision?: { document: number } }[]; send(message: unknown): void };
    stand.send({ kind: 'scene', scene: shown, look: { density: 'pins', layout: 'stacked', follow: 'mouse' } });
    const drawn = () => stand.posted.some((each) => each.kind === 'painted' && each.revision?.document === shown.revision.document);
    while (!drawn()) await new Promise((resolve) => setTimeout(resolve, 5));
    let numbers = 0;
    let farthest = 0;
    for (const system of document.querySelectorAll<HTMLElement>('.system')) {
      // What is out of view is not laid out, and has no boxes.
      system.style.contentVisibility = 'visible';
      const scale = system.querySelector('svg')!.getScreenCTM()!.a;
      const middle = (element: Element) => {
        const { left, right } = element.getBoundingClientRect();
        return (left + right) / 2;
      };
      const heads = [...system.querySelectorAll('.abcjs-notehead, [data-name="grace"] path')].map(middle);
      for (const number of system.querySelectorAll('.tab-stop')) {
        const x = middle(number);
        numbers++;
        farthest = Math.max(farthest, Math.min(...heads.map((head) => Math.abs(head - x))) / scale);
      }
    }
    return { numbers, farthest };
  }, scene);
}
