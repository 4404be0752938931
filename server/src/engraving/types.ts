// What goes into and comes out of the engraving library, in our own words.
import type { Plan } from '../arrangement/types.ts';
import type { Fraction, NoteId, VoiceId } from '../score/types.ts';
import type { Offset, Span } from '../text/span.ts';

/** One tune with the file header merged in, LF line ends, our own marks blanked; `toSource` maps its offsets to offsets in the tune. */
export interface EngravingText {
  readonly text: string;
  /** Sorted: from `at` on in `text`, add `by` to come to the tune's offsets; -1 as `source` where the text is not the tune's (merged header). */
  readonly toSource: readonly { readonly at: Offset; readonly source: Offset }[];
}

/** What the page needs of a note to tie heads, digits and text together. */
export interface SceneNote extends Span {
  readonly id: NoteId;
  readonly voice: VoiceId;
  readonly onset: Fraction;
  readonly kind: 'note' | 'grace';
  /** Written MIDI of each head with its span. */
  readonly heads: readonly (Span & { readonly written: number })[];
  /** Heads tied from before carry no number. */
  readonly tied: boolean;
  /** Decorations that we draw ourselves (accents from symbol lines, slides). */
  readonly marks: readonly string[];
}

/** A finding as the page shows it. Spans are relative to the tune. */
export interface SceneFinding extends Span {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'info';
  readonly message: string;
  readonly notes: readonly NoteId[];
}

/** Everything a page needs to draw one tune: sent by the server, passed on by the host, JSON-safe. */
export interface Scene {
  readonly uri: string;
  readonly revision: Revision;
  /** Index of the tune in the book, and where its text begins in the document. */
  readonly tune: number;
  readonly at: Offset;
  readonly title: string;
  readonly engraving: EngravingText;
  readonly notes: readonly SceneNote[];
  /** Ids of the voices that are bass parts. */
  readonly bassVoices: readonly VoiceId[];
  /** null while the search is under way; a plan message follows. */
  readonly plans: readonly Plan[] | null;
  readonly findings: readonly SceneFinding[];
  /** For playback: the tune played out. */
  readonly playback: ScenePlayback;
}

export interface ScenePlayback {
  readonly events: readonly {
    readonly note: NoteId;
    readonly voice: VoiceId;
    readonly onset: number;
    readonly duration: number;
    readonly midi: number;
    readonly bar: number;
  }[];
  /** In whole notes as floats: the sound clock rounds anyway. */
  readonly tempos: readonly { readonly onset: number; readonly beat: number; readonly bpm: number }[];
  readonly beats: { readonly unit: number; readonly perBar: number };
  readonly pickup: number;
  readonly end: number;
}

/** (document version, settings version). */
export interface Revision {
  readonly document: number;
  readonly settings: number;
}
