// Pictures in hovers: an address of its own, safe in Markdown.
import { describe, expect, it } from 'vitest';
import type { Shape } from '../../../server/src/drawing/index.ts';
import { pictureAddress } from '../../../server/src/wire/picture.ts';

const base = { role: 'board', ink: 'plain', source: null, note: null, spoken: null } as const;
const shapes: readonly Shape[] = [
  { ...base, kind: 'line', x1: 0, y1: 1, x2: 100, y2: 1, width: 1 },
  { ...base, kind: 'circle', x: 10, y: 1, r: 3, fill: true },
  { ...base, kind: 'text', x: 5, y: 5, text: '<b>(G)&"</b>', size: 10, face: 'digits', anchor: 'start', stretch: 1 },
];

describe('pictures', () => {
  const address = pictureAddress(shapes, { width: 100, height: 20 }, 200);
  it('hold nothing that ends a Markdown link', () => expect(address).toMatch(/^data:image\/svg\+xml;utf8,[^()\s'"<>]+$/));
  it('are scaled, and text in them is text', () => {
    const svg = decodeURIComponent(address.slice(address.indexOf(',') + 1));
    expect(svg).toContain('width="200" height="40" viewBox="0 0 100 20"');
    expect(svg).toContain('&lt;b&gt;(G)&amp;&quot;&lt;/b&gt;');
  });
});
