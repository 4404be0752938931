// The fingerboard to scale: stops where the string's length puts them, the hand around its fingers, nothing over another or outside.
import { describe, expect, it } from 'vitest';
import type { PlanNote } from '../../../server/src/arrangement/types.ts';
import { type Board, boardHeight, boardOf, boardWidth, drawBoard, type Shape } from '../../../server/src/drawing/index.ts';
import { sceneOf } from '../../support/page/scenes.ts';

interface Drawn {
  readonly board: Board;
  readonly note: PlanNote;
  readonly shapes: readonly Shape[];
}

/** Each note of a tune on its board. */
function drawn(declared: string, body: string): Drawn[] {
  const text = `X:1\nM:4/4\nL:1/4\nQ:1/4=40\nI:bullfiddle ${declared}\nK:C clef=bass\n${body}\n`;
  const [plan] = sceneOf(text, 0).plans!;
  const board = boardOf(plan!);
  return plan!.notes.map((note) => ({ board, note, shapes: drawBoard(board, note) }));
}

const textsOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []));
const circlesOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'circle' ? [shape] : []));
const bandOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'rect' ? [shape] : []))[0]!;

/** x of the nut: the one tick that crosses the strings. */
const nutOf = (shapes: readonly Shape[]) =>
  shapes.flatMap((shape) => (shape.kind === 'line' && shape.x1 === shape.x2 && shape.width > 2 ? [shape.x1] : []))[0]!;

const boxOf = (shape: Shape): readonly [number, number, number, number] => {
  switch (shape.kind) {
    case 'line':
      return [Math.min(shape.x1, shape.x2), Math.min(shape.y1, shape.y2), Math.max(shape.x1, shape.x2), Math.max(shape.y1, shape.y2)];
    case 'rect':
      return [shape.x, shape.y, shape.x + shape.w, shape.y + shape.h];
    case 'circle':
      return [shape.x - shape.r, shape.y - shape.r, shape.x + shape.r, shape.y + shape.r];
    case 'text': {
      const half = (shape.text.length * shape.size * 0.6) / 2;
      return [shape.x - half, shape.y - 0.75 * shape.size, shape.x + half, shape.y];
    }
    case 'path':
      throw new Error('the board has no paths');
  }
};

const instruments: readonly (readonly [declared: string, body: string])[] = [900, 1100].flatMap((mensur) => [
  [`tuning=standard mensur=${mensur}`, '!1!F,,!4!G,,[A,,G,]C|E,,G,!2!^F,,D|'] as const,
  [`tuning=standard mensur=${mensur} thumb=12`, "!thumb!g!1!a!3!c'!2!b|[da]g2z|"] as const,
  [`tuning=five-low-b mensur=${mensur}`, 'B,,,C,,D,,E,,|G,DGd|'] as const,
  [`tuning=five-high-c mensur=${mensur}`, "cefg|!thumb!c'!3!e'd'z|"] as const,
  [`tuning=c-extension mensur=${mensur}`, 'C,,D,,E,,F,,|'] as const,
]);

describe('the fingerboard', () => {
  it.each([900, 1100])(
    'stands to scale for a string of %i mm: the octave at half of it, the fifth at a third, the fourth at a quarter',
    (mensur) => {
      const [{ shapes }] = drawn(`mensur=${mensur}`, 'D4|') as [Drawn];
      const nut = nutOf(shapes);
      const at = (stop: string): number => textsOf(shapes).find((shape) => shape.text === stop)!.x - nut;
      // Equal temperament narrows a pure fifth by 0.11 % of its ratio and widens a fourth as much: within 0.2 % of the string.
      expect(Math.abs(at('12') - mensur / 2)).toBeLessThan(0.5);
      expect(Math.abs(at('7') - mensur / 3)).toBeLessThan(0.002 * mensur);
      expect(Math.abs(at('5') - mensur / 4)).toBeLessThan(0.002 * mensur);
    },
  );

  it.each(instruments)('has the hand around its fingers, and each finger on its stop (%s)', (declared, body) => {
    for (const { note, shapes } of drawn(declared, body)) {
      const circles = circlesOf(shapes);
      expect(circles.length).toBe(note.places.length);
      if (note.hand === null) continue;
      const band = bandOf(shapes);
      note.places.forEach((place, i) => {
        const { x } = circles[i]!;
        if (place.stop === 0) return;
        expect(Math.abs(x - nutOf(shapes) - place.mm)).toBeLessThan(1);
        expect(x).toBeGreaterThan(band.x);
        expect(x).toBeLessThan(band.x + band.w);
      });
    }
  });

  it.each(instruments)('keeps all inside the picture and no text on another (%s)', (declared, body) => {
    for (const { board, shapes } of drawn(declared, body)) {
      for (const shape of shapes) {
        const [x1, y1, x2, y2] = boxOf(shape);
        expect([x1 >= 0, y1 >= 0, x2 <= boardWidth(board), y2 <= boardHeight(board)], JSON.stringify(shape)).toEqual([
          true,
          true,
          true,
          true,
        ]);
      }
      const texts = textsOf(shapes);
      const pairs = texts.flatMap((a, i) =>
        texts.slice(i + 1).flatMap((b) => {
          const [p, q] = [boxOf(a), boxOf(b)];
          return p[0] < q[2] && q[0] < p[2] && p[1] < q[3] && q[1] < p[3] ? [`${a.text} on ${b.text}`] : [];
        }),
      );
      expect(pairs).toEqual([]);
    }
  });

  it('says how far the hand reaches, in mm', () => {
    const [{ shapes }] = drawn('mensur=1060', '!1!F,,4|') as [Drawn];
    // 1060 mm times (2^(-1/12) - 2^(-3/12)): a whole tone from stop 1.
    expect(textsOf(shapes).map(({ text }) => text)).toContain('109 mm');
  });
});
