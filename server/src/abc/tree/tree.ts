// The tree of a tune book: value objects with offsets relative to their tune, lines relative to themselves.
import type { Offset, Span } from '../../text/span.ts';
import type { Field } from './fields.ts';
import type { MusicItem } from './items.ts';

/** An error of the text as data; `span` is relative to the line that carries it. Codes begin with `text.`. */
export interface TextError {
  readonly code: string;
  /** What is wrong and what to do about it, one or two sentences. */
  readonly message: string;
  readonly span: Span;
  readonly severity: 'error' | 'warning' | 'info';
}

interface LineBase {
  /** The whole line with its line end: the tree prints back by joining these. */
  readonly text: string;
  readonly errors: readonly TextError[];
}

export type Line = LineBase &
  /** `included`: the fields of a file that it includes, their spans on this field. */
  (
    | { readonly kind: 'field'; readonly field: Field; readonly included?: readonly Field[] }
    | { readonly kind: 'music'; readonly items: readonly MusicItem[] }
    /** `w:` lyrics, or a `+:` line that continues them; tokens align to notes by score/. */
    | { readonly kind: 'lyrics'; readonly syllables: readonly Syllable[]; readonly continued?: true }
    /** `s:` symbol line. */
    | { readonly kind: 'symbols'; readonly symbols: readonly SymbolToken[]; readonly continued?: true }
    /** `%%name value`, read like an `I:` field. */
    | { readonly kind: 'directive'; readonly field: Field; readonly included?: readonly Field[] }
    /** A line inside `%%begintext` and the like. */
    | { readonly kind: 'typeset' }
    /** `+:` continuing the field before (its text is joined there). */
    | { readonly kind: 'field-continuation' }
    | { readonly kind: 'comment' }
    | { readonly kind: 'blank' }
    /** Free text after a tune's end. */
    | { readonly kind: 'free' }
  );

/** One place in a `w:` line. */
export interface Syllable extends Span {
  readonly kind: 'text' | 'hold' | 'skip' | 'bar';
  readonly text: string;
  /** Whether a hyphen joins it to the next syllable. */
  readonly hyphen: boolean;
}

/** One place in an `s:` line: decorations and quoted text for one note, a skip (`*`), or a bar. */
export interface SymbolToken extends Span {
  readonly kind: 'marks' | 'skip' | 'bar';
  readonly marks: readonly Extract<MusicItem, { kind: 'decoration' | 'quoted' }>[];
}

/** A line and where it begins, relative to its tune. */
export interface PlacedLine {
  readonly at: Offset;
  readonly line: Line;
}

/** A tune: from its `X:` line up to the next tune's, free text after it included. */
export interface TuneTree {
  readonly kind: 'tune';
  readonly lines: readonly PlacedLine[];
  readonly length: Offset;
  /** Index in `lines` of the first line after the header (the line after K:); lines.length if none. */
  readonly bodyStart: number;
  readonly strictness: 'strict' | 'loose';
}

/** What stands before the first tune: file header and free text. */
export interface HeaderTree {
  readonly kind: 'header';
  readonly lines: readonly PlacedLine[];
  readonly length: Offset;
  /** Version from a first line `%abc-2.1`; null for none or a bare `%abc`. */
  readonly version: string | null;
}

export interface Book {
  readonly header: HeaderTree;
  readonly tunes: readonly { readonly at: Offset; readonly tree: TuneTree }[];
}
