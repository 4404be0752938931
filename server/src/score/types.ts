// What a tune says: voices of timed notes with exact fractions, pitches by the standard, and where each stands.

import type { ClefValue, KeyedValue, KeyValue, MeterValue, PartOrder, VoiceProperties } from '../abc/tree/fields.ts';
import type { Accidental, Letter } from '../abc/tree/items.ts';
import type { TextError } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';

/** An exact fraction in lowest terms, den > 0. Times are in whole notes. */
export interface Fraction {
  readonly num: number;
  readonly den: number;
}

/** Names a written note (or chord) of a tune: its index over all voices in the order of the text. */
export type NoteId = number;
export type VoiceId = string;
/** Pitch in MIDI numbers, by the standard: clef octave, `octave=` and `transpose=` applied. */
export type Midi = number;

/** A mark on a note, from before it, from inside the chord, or from a symbol line. Spans are relative to the tune. */
export type Mark = Span &
  (
    | { readonly kind: 'decoration'; readonly name: string }
    | { readonly kind: 'annotation'; readonly placement: 'above' | 'below' | 'left' | 'right' | 'free'; readonly text: string }
    | { readonly kind: 'chord-symbol'; readonly text: string }
  ) & { readonly source: 'inline' | 'symbol-line' };

/** One notehead. */
export interface Head extends Span {
  readonly letter: Letter;
  /** Semitones off the natural that sound here (key, bar and own accidental taken together). */
  readonly alter: number;
  /** Scientific octave of the written note after `octave=` (C4 is middle C). */
  readonly octave: number;
  readonly accidental: Accidental | null;
  readonly midi: Midi;
  /** Midi without clef octave and `transpose=`: the written pitch (open bass strings are 40 45 50 55). */
  readonly written: Midi;
  readonly duration: Fraction;
  /** Where a tie sign stands for this head, whether or not the next note takes it up (`tieTo`). */
  readonly tieMark?: Span | null;
  /** Joined by a tie to this head of a later note of the same pitch. */
  readonly tieTo: { readonly note: NoteId; readonly head: number } | null;
  /** Joined by a tie from an earlier head: not sounded again. */
  readonly tied: boolean;
  /** Decorations written inside the chord for this head; empty for single notes (see ScoreNote.marks). */
  readonly marks: readonly Mark[];
}

/** A written note or chord. Spans are relative to the tune and cover the note with its length, not its marks. */
export interface ScoreNote extends Span {
  readonly id: NoteId;
  readonly voice: VoiceId;
  /** From the start of the tune as written (repeats not played), in whole notes. */
  readonly onset: Fraction;
  /** The first head's duration; graces have 0. */
  readonly duration: Fraction;
  readonly kind: 'note' | 'grace';
  readonly heads: readonly Head[];
  readonly marks: readonly Mark[];
  /** Index into Voice.bars. */
  readonly bar: number;
  /** The overlay layer in the bar: 0 for the main voice, 1 and up after `&`. */
  readonly layer: number;
  /** The note of which this grace is an ornament. */
  readonly graceOf: NoteId | null;
}

export interface Rest extends Span {
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly seen: boolean;
  readonly bar: number;
  readonly layer: number;
}

/** A slur or phrase over the notes from `first` to `last` (ids of one voice, graces may be ends). */
export interface Slur {
  readonly first: NoteId;
  readonly last: NoteId;
  readonly dotted: boolean;
  readonly open: Span;
  readonly close: Span;
}

/** One bar of a voice. */
export interface Bar extends Span {
  readonly index: number;
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Length the meter asks for; null in free meter. */
  readonly nominal: Fraction | null;
  readonly part: string | null;
  /** Ending numbers it belongs to; empty outside endings. */
  readonly ending: readonly number[];
  readonly meter: MeterValue;
  readonly key: KeyValue;
  /** The sign that closes it, null at the end of the text. */
  readonly closedBy: (Span & { readonly sign: string }) | null;
  /** Colons that open a repeat at its start, and close one at its end. */
  readonly startRepeats: number;
  readonly endRepeats: number;
  /** Whether it closes with a double, initial or final bar line. */
  readonly sectionEnd: boolean;
}

/** A lyric syllable on a note. */
export interface Lyric extends Span {
  readonly note: NoteId;
  readonly verse: number;
  readonly text: string;
  readonly hyphen: boolean;
}

/** An `I:` field or `%%` directive that holds from a place in this voice on (or from the header). */
export interface Instruction extends Span {
  readonly name: string;
  readonly rest: string;
  readonly keyed: readonly KeyedValue[];
  /** 'file', 'tune' header, after `V:` in the header ('voice'), or inline from `onset` on ('inline'). */
  readonly scope: 'file' | 'tune' | 'voice' | 'inline';
  readonly onset: Fraction;
  /** Id of the first note after it, of the voice; equal to the number of notes at the end. */
  readonly before: NoteId;
}

export interface Voice {
  readonly id: VoiceId;
  readonly properties: VoiceProperties;
  /** At its start. */
  readonly clef: ClefValue;
  readonly clefChanges: readonly { readonly onset: Fraction; readonly clef: ClefValue }[];
  readonly notes: readonly ScoreNote[];
  readonly rests: readonly Rest[];
  readonly bars: readonly Bar[];
  readonly slurs: readonly Slur[];
  readonly lyrics: readonly Lyric[];
  readonly instructions: readonly Instruction[];
  /** Index in `bars` where each labelled part begins. */
  readonly parts: readonly { readonly label: string; readonly bar: number; readonly span: Span }[];
}

/** Tempo in force from a place on. */
export interface Tempo extends Span {
  readonly onset: Fraction;
  /** In whole notes; null with words only. */
  readonly beat: Fraction | null;
  readonly bpm: number | null;
  readonly words: string | null;
}

export interface HeaderText extends Span {
  readonly letter: string;
  readonly text: string;
}

/** A tune, read. Nothing here knows of basses. All spans are relative to the tune. */
export interface Score {
  readonly number: number | null;
  readonly title: string;
  /** All string fields of the header (T C O A S R B D F G H N Z ...), in order; file header's first with `from: -1`. */
  readonly texts: readonly HeaderText[];
  readonly key: KeyValue;
  readonly keyText: string;
  readonly meter: MeterValue;
  readonly meterText: string;
  readonly unit: Fraction;
  readonly tempos: readonly Tempo[];
  readonly partOrder: readonly PartOrder[];
  readonly voices: readonly Voice[];
  /** Errors of lines and of meaning, spans relative to the tune. */
  readonly errors: readonly TextError[];
  /** Written end, whole notes. */
  readonly end: Fraction;
}

/** One sounding of a written head: repeats give several. */
export interface PlayedEvent {
  readonly note: NoteId;
  readonly head: number;
  readonly onset: Fraction;
  /** Ties merged: to the end of the last tied head. */
  readonly duration: Fraction;
  readonly midi: Midi;
  /** The last note that ties have merged into it; absent without ties. */
  readonly last?: NoteId;
}

/** The order in which bars sound: indices into the voice's bars, with where each begins. */
export interface PlayedBar {
  readonly bar: number;
  readonly onset: Fraction;
}

export interface PlayedVoice {
  readonly voice: VoiceId;
  readonly events: readonly PlayedEvent[];
  readonly order: readonly PlayedBar[];
}

/** A tune played out: repeats, endings and part order. */
export interface Played {
  readonly voices: readonly PlayedVoice[];
  readonly tempos: readonly { readonly onset: Fraction; readonly beat: Fraction; readonly bpm: number }[];
  readonly end: Fraction;
}
