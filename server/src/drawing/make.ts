// Short ways to make shapes.
import type { Span } from '../text/span.ts';
import type { Ink, Role, Shape } from './shapes.ts';

/** What a shape stands for. */
export interface Meaning {
  readonly role: Role;
  readonly ink: Ink;
  readonly source: Span | null;
  readonly note: number | null;
  readonly spoken: string | null;
}

/** Furniture: lines and letters that belong to no note. */
export const furniture = (role: Role): Meaning => ({ role, ink: 'plain', source: null, note: null, spoken: null });

export const lineShape = (meaning: Meaning, x1: number, y1: number, x2: number, y2: number, width: number): Shape => ({
  ...meaning,
  kind: 'line',
  x1,
  y1,
  x2,
  y2,
  width,
});

export const pathShape = (meaning: Meaning, d: string, pen: 'filled' | number): Shape => ({
  ...meaning,
  kind: 'path',
  d,
  fill: pen === 'filled',
  width: pen === 'filled' ? 0 : pen,
});

type Text = Extract<Shape, { kind: 'text' }>;

export const textShape = (
  meaning: Meaning,
  text: string,
  at: { readonly x: number; readonly y: number },
  size: number,
  face: Text['face'],
  anchor: Text['anchor'] = 'middle',
): Text => ({ ...meaning, kind: 'text', text, x: at.x, y: at.y, size, face, anchor, stretch: 1 });

const short = (n: number): number => Math.round(n * 100) / 100;

/** Path data from commands and numbers, to a hundredth of a unit. */
export const pathData = (...parts: readonly (string | number)[]): string =>
  parts.map((part) => (typeof part === 'number' ? short(part) : part)).join(' ');
