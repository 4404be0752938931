// The recorder against what it stands in for: the library drawing the same tune into a document.
import abcjs from 'abcjs';
import { parseHTML } from 'linkedom';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { controllerOn, parseTune } from '../../../server/src/engraving/library.ts';
import type { PictureNode } from '../../../server/src/engraving/picture.ts';
import { Recorder } from '../../../server/src/engraving/recorder.ts';

/** Everything the library draws with on its paper: groups, glyphs, stems, scaled graces, boxes, chord symbols in parts, words. */
const tune = [
  'X:1',
  'T:All kinds',
  '%%partsbox 1',
  '%%gchordfont Arial 12 box',
  'Q:"Slow" 1/4=60 "or so"',
  'M:C|',
  'L:1/8',
  'P:A',
  'K:Eb clef=bass',
  '"Bb7/F"B,,2 {^CD}E,2 !f!(3G,A,B, !fermata!z2|"^text above, which is long"[E,G,]2-[E,G,]2 ~D,>E, .F,2:|',
  'w: two syl-la-bles',
  'P:B',
  '|:!<(!C,,/D,,/E,,/F,,/ x2 Z|1(E,F,)(G,A,) y B,4:|2 B,,8|]',
].join('\n');

interface Node {
  readonly name: string;
  readonly attributes: readonly (readonly [string, string])[];
  readonly children: readonly Node[];
  readonly text: string;
}

const ofSelections = ['selectable', 'data-index'];
const sorted = (attributes: Iterable<readonly [string, string]>) =>
  [...attributes].filter(([name, value]) => !ofSelections.includes(name) && value !== 'undefined').sort(([a], [b]) => (a < b ? -1 : 1));

const recorded = ({ name, attributes, children, text }: PictureNode): Node => ({
  name,
  attributes: sorted(Object.entries(attributes)),
  children: children.map(recorded),
  text,
});

function drawn(element: Element): Node {
  const words = [...element.childNodes].filter((node) => node.nodeType === 3).map((node) => node.textContent);
  const attributes = [...element.attributes].map(({ name, value }) => [name, value] as const);
  return { name: element.localName, attributes: sorted(attributes), children: [...element.children].map(drawn), text: words.join('') };
}

/** Neither side can measure: a text is as wide as half its size says, on both. */
const sizeBy = (size: number) => ({ width: size / 2, height: size + 2 });

const stands = {
  document: parseHTML('<!doctype html><html><body></body></html>').document,
  window: { console },
  navigator: { userAgent: '' },
};

describe('the recorder', () => {
  const before = new Map(Object.keys(stands).map((name) => [name, Object.getOwnPropertyDescriptor(globalThis, name)]));
  beforeAll(() => {
    for (const [name, value] of Object.entries(stands)) Object.defineProperty(globalThis, name, { value, configurable: true });
  });
  afterAll(() => {
    for (const [name, descriptor] of before) {
      if (descriptor === undefined) Reflect.deleteProperty(globalThis, name);
      else Object.defineProperty(globalThis, name, descriptor);
    }
  });

  it('takes down what the library draws into a document, element by element', () => {
    const elements = Object.getPrototypeOf(stands.document.createElementNS('http://www.w3.org/2000/svg', 'text'));
    elements.getBBox = function measured(this: Element) {
      return sizeBy(Number(this.getAttribute('font-size')));
    };
    const host = stands.document.createElement('div');
    stands.document.body.append(host);
    const padding = { paddingtop: 0, paddingbottom: 0, paddingleft: 0, paddingright: 0 };
    abcjs.renderAbc(host as unknown as HTMLElement, tune, { staffwidth: 740, add_classes: false, ariaLabel: '', ...padding });
    const recorder = new Recorder((_said, attributes) => sizeBy(Number(attributes['font-size'])));
    controllerOn(recorder, 740).engraveABC(parseTune(tune));
    const svg = host.querySelector('svg')!;
    const groups = [...svg.children].filter((child) => child.localName !== 'style').map((child) => drawn(child as unknown as Element));
    expect(groups.length).toBeGreaterThan(1);
    expect(recorded(recorder.svg).children).toEqual(groups);
  });
});
