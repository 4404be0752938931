// What goes into and comes out of the engraving library, in our own words.
import type { Plan } from '../arrangement/types.ts';
import type { Fraction, NoteId, VoiceId } from '../score/types.ts';
import type { Offset, Span } from '../text/span.ts';

/** One tune with the file header merged in, LF line ends, our own marks blanked; `toSource` maps its offsets to offsets in the tune. */
export interface EngravingText {
  readonly text: string;
  /** Sorted: from `at` on in `text`, `source` is the tune's offset of `at`; -1 as `source` where the text is not the tune's (merged header). */
  readonly toSource: readonly { readonly at: Offset; readonly source: Offset }[];
}

/** What the page needs of a note to tie heads, digits and text together. */
export interface SceneNote extends Span {
  readonly id: NoteId;
  readonly voice: VoiceId;
  readonly onset: Fraction;
  readonly kind: 'note' | 'grace';
  /** Index of its bar in the voice. */
  readonly bar: number;
  /** Written MIDI of each head with its span; `step` counts diatonic steps from middle C. */
  readonly heads: readonly (Span & { readonly written: number; readonly step: number })[];
  /** Heads tied from before carry no number. */
  readonly tied: boolean;
  /** Decorations that we draw ourselves (fingers, strings, accents, slides): the names of section 4.14 of the standard, and `sul G` for a string text. */
  readonly marks: readonly string[];
  /** Syllables sung to it, each verse's with its place in the text. */
  readonly words: readonly (Span & { readonly text: string })[];
}

/** A finding as the page shows it. Spans are relative to the tune. */
export interface SceneFinding extends Span {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'info';
  readonly message: string;
  readonly notes: readonly NoteId[];
  /** What it was found in: one that rests on the plan comes with it. */
  readonly rests: 'text' | 'plan';
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
  /** null while the search is under way; a plan message follows. Empty for a tune that is not fingered. */
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
  /** In whole notes as floats: the sound clock rounds anyway. There is at least one; the first holds from the start. */
  readonly tempos: readonly { readonly onset: number; readonly beat: number; readonly bpm: number }[];
  /** How it is counted, in whole notes (see `Count`); each holds until the next begins, and there is at least one. */
  readonly counts: readonly {
    readonly from: number;
    readonly bar: number;
    readonly beat: number;
    readonly perBar: number;
    readonly step: number;
  }[];
  /** What the first beat is called: `half note`. */
  readonly beatName: string;
  /** The number that players give to the first bar: 0 for a pickup. */
  readonly firstBar: number;
  readonly end: number;
  /** Chords of the symbols, and root and fifth of the key: what can be played under the tune. */
  readonly backing: readonly {
    readonly kind: 'chord' | 'drone';
    readonly onset: number;
    readonly duration: number;
    readonly midi: readonly number[];
  }[];
}

/** (document version, settings version). */
export interface Revision {
  readonly document: number;
  readonly settings: number;
}

/** Room kept over the notes of a voice with tab, for fingers, strings and the place of the hand; in units of the engraving. */
export interface Headroom {
  readonly usual: number;
  /** What one note takes; no less than usual. */
  over(note: SceneNote): number;
}

/** A drawn notehead. x is its middle, y its centre; units of the engraving, from the system's own origin. */
export interface EngravedHead {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  /** Left edge of the head, or of its accidental. */
  readonly left: number;
  /** Diatonic steps from middle C, as drawn. */
  readonly step: number;
}

/** A drawn note or chord, or one grace note, of one staff. */
export interface EngravedNote {
  readonly kind: 'note' | 'grace';
  readonly staff: number;
  /** Index of the voice on its staff. */
  readonly layer: number;
  readonly heads: readonly EngravedHead[];
  /** Which way the stem goes; null for none. */
  readonly stem: 'up' | 'down' | null;
  /** Number of the beam group within the system; null alone. */
  readonly beam: number | null;
  /** The scene's note, and for each drawn head the index of the scene's head; null where the two do not agree. */
  readonly match: { readonly note: SceneNote; readonly heads: readonly number[] } | null;
}

export interface EngravedBar {
  readonly staff: number;
  readonly x: number;
  readonly width: number;
  /** Place in the tune's text; null for a line the text does not show. */
  readonly source: Span | null;
}

/**
 * Ink of one staff beyond its lines, with all that belongs to it: highest and lowest y at each whole x from 0; null without.
 * The rows over the room kept for fingers (chords, endings, parts, tempo) count to `peak` alone.
 */
export interface StaffInk {
  /** Least y of all; null without ink. */
  readonly peak: number | null;
  readonly top: readonly (number | null)[];
  readonly bottom: readonly (number | null)[];
}

export interface EngravedStaff {
  /** y of the top and the bottom line. */
  readonly top: number;
  readonly bottom: number;
  readonly ink: StaffInk;
  /** Room that was kept over its notes for the rows of its tabs; 0 without one. */
  readonly headroom: number;
  /** The voices drawn on it, as far as they are known. */
  readonly voices: readonly VoiceId[];
}

/** One system, drawn alone: geometry and what it stands for, as plain data. */
export interface EngravedSystem {
  readonly left: number;
  readonly right: number;
  /** x of the right edge of all that is drawn: words may run over the staff's end. */
  readonly reach: number;
  readonly staffs: readonly EngravedStaff[];
  readonly notes: readonly EngravedNote[];
  readonly bars: readonly EngravedBar[];
}

/** Where and why the library gave up; the picture before stays. */
export interface EngravingFailed {
  readonly where: 'parse' | 'draw';
  readonly message: string;
}
