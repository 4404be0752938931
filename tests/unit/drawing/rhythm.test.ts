// Rhythm under the tab: how lengths are written, and that every note and rest of a bar gets its sign in its order.
import { describe, expect, it } from 'vitest';
import { drawSystem, type Shape } from '../../../server/src/drawing/index.ts';
import { writtenValue } from '../../../server/src/drawing/rhythm.ts';
import { openFonts } from '../../../server/src/handout/index.ts';
import { engravedSystems } from '../../../server/src/handout/page/engraved.ts';
import { papers } from '../../../server/src/handout/page/paper.ts';
import { fontFiles, handoutTunes } from '../../support/handout.ts';

const fonts = openFonts(fontFiles);

/** The shapes of role `stem` of a line of music in G, eighths. */
function stems(music: string): readonly Shape[] {
  const tune = handoutTunes(`X:1\nT:R\nM:4/4\nL:1/8\nK:G clef=bass\n${music}\n`)[0]!;
  const systems = engravedSystems(tune, papers.a4, fonts);
  if ('problem' in systems) throw new Error(systems.problem);
  const { voices } = tune.score;
  return systems
    .flatMap(({ system }) => drawSystem(system, tune.plans, { density: 'all', bassVoices: ['1'], rhythms: voices }))
    .filter(({ role }) => role === 'stem');
}

const of = <K extends Shape['kind']>(shapes: readonly Shape[], kind: K) =>
  shapes.filter((shape): shape is Extract<Shape, { kind: K }> => shape.kind === kind);

describe('writtenValue', () => {
  // Values, dots and tuplets as any theory book has them (common practice).
  it.each([
    [1, 4, 0.25, 0, null],
    [3, 8, 0.25, 1, null],
    [7, 16, 0.25, 2, null],
    [1, 1, 1, 0, null],
    [1, 12, 0.125, 0, 3],
    [1, 6, 0.25, 0, 3],
    [1, 10, 0.125, 0, 5],
  ])('%d/%d', (num, den, value, dots, tuplet) => {
    expect(writtenValue({ num, den })).toEqual({ value, dots, tuplet });
  });
});

describe('drawRhythm', () => {
  it('gives each note but a whole one a stem at its place, a half note a shorter one', () => {
    const lines = of(stems('G,2A,2B,4|C8|]'), 'line');
    expect(lines).toHaveLength(3);
    const [quarter, , half] = lines.map(({ y1, y2 }) => y2 - y1);
    expect(half! / quarter!).toBeCloseTo(0.55, 2);
    expect(new Set(lines.map(({ y2 }) => y2)).size).toBe(1);
  });

  it('leaves out an overlay, which has no stops', () => {
    expect(stems('C8 & E,2F,2z4|]')).toEqual([]);
  });

  it('beams as the staff does, and never over a rest', () => {
    expect(of(stems('G,A, B,C D2 E2|]'), 'rect')).toHaveLength(2);
    expect(of(stems('G,/A,/B,/C/ D2 E4|]'), 'rect')).toHaveLength(2);
    expect(of(stems('G,/z/A,/z/ D2 E4|]'), 'rect')).toHaveLength(0);
  });

  it('writes the figure of a tuplet once', () => {
    expect(of(stems('(3G,A,B, (3CDE G,4|]'), 'text').map(({ text }) => text)).toEqual(['3', '3']);
  });

  it('sets a rest between its neighbours, and a lone one in the middle of its bar', () => {
    const shapes = stems('G,2 z4 A,2|z8|B,8|]');
    const [first, second] = of(shapes, 'line').filter(({ x1, x2 }) => x1 === x2);
    const [half, whole] = of(shapes, 'rect');
    expect(half!.x).toBeGreaterThan(first!.x1);
    expect(half!.x).toBeLessThan(second!.x1);
    expect(whole!.x).toBeGreaterThan(second!.x1 + 20);
    expect(whole!.y - half!.y).toBe(3);
  });
});
