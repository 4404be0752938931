// The values of information fields, parsed as far as the standard gives them a form.
import type { Span } from '../../text/span.ts';
import type { Accidental, Letter, WrittenLength } from './items.ts';

export type Mode = 'major' | 'minor' | 'dorian' | 'phrygian' | 'lydian' | 'mixolydian' | 'locrian' | 'none' | 'explicit' | 'highland';

export interface KeyValue {
  /** null where only clef properties were given (`K:clef=bass`) or K: was empty. */
  readonly tonic: { readonly letter: Letter; readonly alter: -1 | 0 | 1 } | null;
  readonly mode: Mode;
  readonly accidentals: readonly { readonly letter: Letter; readonly accidental: Accidental }[];
  readonly properties: VoiceProperties;
}

/** Properties of K: and V:; those not written are absent. */
export interface VoiceProperties {
  readonly clef?: ClefValue;
  /** Semitones, playback only. */
  readonly transpose?: number;
  /** Octaves; moves the written note too. */
  readonly octave?: number;
  readonly middle?: string;
  readonly staffLines?: number;
  readonly name?: string;
  readonly shortName?: string;
  readonly stem?: 'up' | 'down' | 'auto';
  /** Everything else, as written. */
  readonly others?: ReadonlyMap<string, string>;
}

export interface ClefValue {
  readonly shape: 'treble' | 'alto' | 'tenor' | 'bass' | 'perc' | 'none';
  readonly line: number | null;
  /** Octaves that the clef's suffix moves the sound by: -1 for `bass-8`. */
  readonly octave: -1 | 0 | 1;
}

export type MeterValue =
  | { readonly kind: 'none' }
  | { readonly kind: 'time'; readonly beats: readonly number[]; readonly unit: number; readonly sign: 'C' | 'C|' | null };

export interface TempoValue {
  /** Beat lengths in whole notes, summed for the beat: `1/4 3/8` has two. Empty with words only. */
  readonly beats: readonly WrittenLength[];
  /** Beats a minute; null with words only. */
  readonly bpm: number | null;
  readonly words: string | null;
  /** Old forms: `Q:120` counts unit lengths, `Q:C3=40` multiples of it. */
  readonly form: 'standard' | 'old';
}

export type PartOrder =
  | { readonly kind: 'part'; readonly label: string }
  | { readonly kind: 'group'; readonly items: readonly PartOrder[]; readonly times: number };

/** `key=value ...` of an instruction field, each with the place of key and value (relative to the line). */
export interface KeyedValue {
  readonly key: string;
  readonly value: string;
  readonly keySpan: Span;
  readonly valueSpan: Span;
}

export type FieldValue =
  | { readonly kind: 'key'; readonly key: KeyValue }
  | { readonly kind: 'meter'; readonly meter: MeterValue }
  | { readonly kind: 'unit'; readonly unit: WrittenLength }
  | { readonly kind: 'tempo'; readonly tempo: TempoValue }
  | { readonly kind: 'voice'; readonly id: string; readonly idSpan: Span; readonly properties: VoiceProperties }
  | { readonly kind: 'parts'; readonly label: string; readonly order: readonly PartOrder[] }
  | { readonly kind: 'user-symbol'; readonly sign: string; readonly meaning: string }
  | { readonly kind: 'macro'; readonly call: string; readonly body: string }
  | { readonly kind: 'number'; readonly number: number | null }
  | { readonly kind: 'instruction'; readonly name: string; readonly rest: string; readonly keyed: readonly KeyedValue[] }
  /** String fields (T: C: S: ...), unknown letters, and values that could not be read. */
  | { readonly kind: 'text' };

/** One information field. Spans are relative to the line it begins on. */
export interface Field extends Span {
  readonly letter: string;
  /** The raw value, trimmed, comment taken off, `+:` lines joined by a space. */
  readonly text: string;
  readonly textSpan: Span;
  readonly value: FieldValue;
}
