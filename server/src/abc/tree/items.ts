// The pieces of a music line. Items tile their line: printed in order they give the line back, byte for byte.
import type { Span } from '../../text/span.ts';

/** Fraction as written, in unit note lengths, not reduced: `C3/2` is {num: 3, den: 2}, `C//` is {num: 1, den: 4}. */
export interface WrittenLength {
  readonly num: number;
  readonly den: number;
}

export type Accidental = '__' | '_' | '=' | '^' | '^^';
export type Letter = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G';

/** A single note as written. Spans are relative to the line's start. */
export interface NoteItem extends Span {
  readonly kind: 'note';
  readonly accidental: Accidental | null;
  readonly letter: Letter;
  /** Scientific octave as written: `C` is 4 (middle C), `c` is 5, `C,` is 3. */
  readonly octave: number;
  readonly length: WrittenLength;
  /** Where the pitch (accidental, letter, octave marks) stands, without the length. */
  readonly pitchSpan: Span;
}

export interface RestItem extends Span {
  readonly kind: 'rest';
  /** `z` seen, `x` unseen, `Z` and `X` whole bars (length counts bars). */
  readonly sign: 'z' | 'x' | 'Z' | 'X';
  readonly length: WrittenLength;
}

/** `[CEG]2`: inner items tile the inside of the brackets. */
export interface ChordItem extends Span {
  readonly kind: 'chord';
  readonly inner: readonly MusicItem[];
  readonly length: WrittenLength;
}

/** `{g}` or `{/g}`. */
export interface GraceItem extends Span {
  readonly kind: 'grace';
  readonly slashed: boolean;
  readonly inner: readonly MusicItem[];
}

export interface BarItem extends Span {
  readonly kind: 'bar';
  /** The sign as written, without ending numbers: `|:`, `::`, `:|`, `||`, `[|]`, `.|` ... */
  readonly sign: string;
  /** Colons before (`:|` is 1, `::|` 2): the passage before is played once more than this. */
  readonly endRepeats: number;
  /** Colons after (`|:` is 1, `|::` 2). */
  readonly startRepeats: number;
  readonly weight: 'single' | 'double' | 'final' | 'initial' | 'dotted' | 'unseen';
  /** Ending numbers that follow at once (`|1`, `:|2`, `|[1,3-5`), else null. */
  readonly ending: EndingNumbers | null;
}

/** `[1` or `[1,3-5`, or the short `|1`. */
export interface EndingNumbers extends Span {
  readonly numbers: readonly number[];
}

export interface EndingItem extends EndingNumbers {
  readonly kind: 'ending';
}

/** `!trill!` or `+trill+` (old), or a one-letter sign (`.`, `~`, `u`, or one set by `U:`). */
export interface DecorationItem extends Span {
  readonly kind: 'decoration';
  readonly name: string;
  readonly form: 'named' | 'shorthand';
}

/** Text in quotes: a chord symbol, or an annotation when it begins with `^ _ < > @`. */
export interface QuotedItem extends Span {
  readonly kind: 'quoted';
  readonly placement: 'chord' | 'above' | 'below' | 'left' | 'right' | 'free';
  /** Without quotes and placement sign, escapes resolved. */
  readonly text: string;
}

export interface TupletItem extends Span {
  readonly kind: 'tuplet';
  readonly p: number;
  readonly q: number | null;
  readonly r: number | null;
}

/** `[K:D]` and the like; the field's value is parsed as that of a line field. */
export interface InlineFieldItem extends Span {
  readonly kind: 'inline';
  readonly field: import('./fields.ts').Field;
}

export type MarkItem = Span &
  (
    | { readonly kind: 'slur-open'; readonly dotted: boolean }
    | { readonly kind: 'slur-close' }
    | { readonly kind: 'tie'; readonly dotted: boolean }
    | { readonly kind: 'broken'; readonly toward: 'left' | 'right'; readonly degree: number }
    | { readonly kind: 'overlay' }
    | { readonly kind: 'spacer' }
    | { readonly kind: 'space' }
    | { readonly kind: 'back-quote' }
    | { readonly kind: 'line-break' }
    /** A backslash at the line's end and what white space follows it. */
    | { readonly kind: 'continuation' }
    | { readonly kind: 'comment' }
    | { readonly kind: 'line-end' }
    /** Anything that is not music: kept, printed back, reported by an error on the line. */
    | { readonly kind: 'unknown' }
  );

/** A macro call (`m:`) or several items that one piece of text stands for; `expansion` spans all point to the call. */
export interface MacroItem extends Span {
  readonly kind: 'macro';
  /** What the call stands for, as text. */
  readonly text: string;
  readonly expansion: readonly MusicItem[];
}

export type MusicItem =
  | NoteItem
  | RestItem
  | ChordItem
  | GraceItem
  | BarItem
  | EndingItem
  | DecorationItem
  | QuotedItem
  | TupletItem
  | InlineFieldItem
  | MacroItem
  | MarkItem;
