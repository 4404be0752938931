// Plain shapes: all that is drawn beside what the engraving library draws. Units are those of the engraving (1 staff space = 7.75).
import type { Span } from '../text/span.ts';

/** What a shape means; the page and the paper choose ink by it. */
export type Role =
  | 'tab-line'
  | 'tab-letter'
  | 'tab-stop'
  | 'tab-bar'
  | 'hammer-arc'
  | 'slide'
  | 'accent'
  | 'stem'
  | 'finger'
  | 'string-text'
  | 'hand'
  | 'finding'
  | 'title'
  | 'words'
  | 'credit'
  | 'key'
  | 'board';

/** Who decided it: the player (pinned) or the engine (computed). */
export type Ink = 'pinned' | 'computed' | 'plain';

interface ShapeBase {
  readonly role: Role;
  readonly ink: Ink;
  /** Place in the tune's text; null for furniture. */
  readonly source: Span | null;
  /** Name of the note it belongs to, for highlights; null for furniture. */
  readonly note: number | null;
  /** What a screen reader says; null where it is only decoration. */
  readonly spoken: string | null;
}

export type Shape = ShapeBase &
  (
    | { readonly kind: 'line'; readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number; readonly width: number }
    | { readonly kind: 'path'; readonly d: string; readonly fill: boolean; readonly width: number }
    | { readonly kind: 'rect'; readonly x: number; readonly y: number; readonly w: number; readonly h: number }
    | { readonly kind: 'circle'; readonly x: number; readonly y: number; readonly r: number; readonly fill: boolean }
    | {
        readonly kind: 'text';
        readonly x: number;
        readonly y: number;
        readonly text: string;
        readonly size: number;
        readonly face: 'digits' | 'serif' | 'serif-italic' | 'serif-bold';
        readonly anchor: 'start' | 'middle' | 'end';
        /** Width as a share of what the face gives. */
        readonly stretch: number;
      }
  );
