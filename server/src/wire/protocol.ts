// What server and client say to each other beyond the language server protocol. Types only: the client imports nothing else from here.
import type { Plan } from '../arrangement/types.ts';
import type { Revision, Scene, SceneFinding } from '../engraving/types.ts';

/** A panel looks at the tune around this offset of the document. */
export interface View {
  readonly view: string;
  readonly uri: string;
  readonly offset: number;
}

/** The plan (and the findings that rest on it) of a scene sent before. */
export interface PlanNews {
  readonly uri: string;
  readonly tune: number;
  readonly revision: Revision;
  readonly plans: readonly Plan[];
  readonly findings: readonly SceneFinding[];
}

/** Notifications from the server. `views` names the panels concerned. */
export interface FromServer {
  readonly 'bullfiddle/scene': { readonly views: readonly string[]; readonly scene: Scene };
  readonly 'bullfiddle/plan': { readonly views: readonly string[]; readonly news: PlanNews };
  /** The file has no tune to show (yet); `message` says so. */
  readonly 'bullfiddle/nothing': { readonly views: readonly string[]; readonly uri: string; readonly message: string };
}

/** Notifications from the client. */
export interface FromClient {
  readonly 'bullfiddle/show': View;
  readonly 'bullfiddle/hide': { readonly view: string };
}

/** One note of a tune in a document, as it was at a revision. */
export interface NoteAt {
  readonly uri: string;
  readonly tune: number;
  readonly note: number;
  readonly head: number;
  readonly revision: Revision;
}

/** Another place for a note, as the page offers it; the same as the page's `PlaceChoice`. */
export interface Choice {
  readonly string: string;
  readonly stop: number;
  readonly finger: string;
  readonly harmonic: boolean;
  readonly regret: number;
  readonly effect: string;
}

/** A replacement in a document; offsets are those of `version`. */
export interface DocumentEdits {
  readonly version: number;
  readonly edits: readonly { readonly from: number; readonly to: number; readonly insert: string }[];
}

/** What a command wants done at a selection of a document. */
export type Wish =
  /** A change from the list of actions, by its id and variant. */
  | { readonly kind: 'action'; readonly action: string; readonly variant: string }
  | { readonly kind: 'arrange'; readonly version: 'low' | 'high' | 'backing' }
  /** Brings all made versions of the tune up to date. */
  | { readonly kind: 'update' }
  | { readonly kind: 'transpose'; readonly semitones: number }
  /** A note given by string and stop (semitones above the open string), at the start of the selection. */
  | { readonly kind: 'enter'; readonly string: string; readonly stop: number };

/** Offsets `from` and `to` are of `version`. */
export interface ChangeAsk {
  readonly uri: string;
  readonly version: number;
  readonly from: number;
  readonly to: number;
  readonly wish: Wish;
}

/** Edits for what was wished, none if it cannot be; `words` say what the player should know. */
export interface Changes extends DocumentEdits {
  readonly words: readonly string[];
}

/** Formats of a handout that an editor offers. */
export type HandoutFormat = 'pdf' | 'html' | 'text' | 'midi' | 'wav' | 'musicxml';

export interface ExportAsk {
  readonly uri: string;
  readonly format: HandoutFormat;
  /** An offset into the tune wanted; null for the whole book. */
  readonly at: number | null;
  /** Printed at the foot; empty for none. */
  readonly date: string;
}

/** A file made, its bytes in base64, with what could not be done; null for none, and why. */
export interface Exported {
  readonly base64: string | null;
  readonly words: readonly string[];
}

/** An open document against another state of its text, which `before` names. */
export interface CompareAsk {
  readonly uri: string;
  readonly old: string;
  readonly before: string;
}

/** A page that shows the two states side by side; null for none, and why. */
export interface Compared {
  readonly page: string | null;
  readonly words: string;
}

/** The low and the high version of a tune of an open document: of the one named, else of the one at `offset`. */
export interface BesideAsk {
  readonly uri: string;
  readonly offset: number;
  readonly tune: string | null;
}

/** A page that shows both versions side by side, and the tune's name; null for none, and why. */
export interface Beside {
  readonly page: string | null;
  readonly tune: string | null;
  readonly words: string;
}

/** Requests from the client. A null answer means that the text has moved on. */
export interface AskServer {
  readonly 'bullfiddle/places': { readonly ask: NoteAt; readonly answer: readonly Choice[] | null };
  readonly 'bullfiddle/change': { readonly ask: ChangeAsk; readonly answer: Changes | null };
  /** Where the caret goes by bars; null at the ends. */
  readonly 'bullfiddle/bar': {
    readonly ask: { readonly uri: string; readonly offset: number; readonly way: 'on' | 'back' };
    readonly answer: number | null;
  };
  readonly 'bullfiddle/strings': { readonly ask: { readonly uri: string; readonly offset: number }; readonly answer: readonly string[] };
  /** Pasted tune text made plain, its line ends those of the text's first line. */
  readonly 'bullfiddle/clean': { readonly ask: { readonly text: string }; readonly answer: string };
  readonly 'bullfiddle/export': { readonly ask: ExportAsk; readonly answer: Exported };
  readonly 'bullfiddle/compare': { readonly ask: CompareAsk; readonly answer: Compared };
  readonly 'bullfiddle/beside': { readonly ask: BesideAsk; readonly answer: Beside };
  readonly 'bullfiddle/choose': { readonly ask: NoteAt & { readonly choice: Choice }; readonly answer: DocumentEdits | null };
}

/** Requests from the server: files are read through the editor, so that virtual folders work. */
export interface AskClient {
  readonly 'bullfiddle/read': { readonly ask: { readonly uri: string }; readonly answer: string | null };
  /** Addresses of all tune files of the open folders. */
  readonly 'bullfiddle/list': { readonly ask: Record<string, never>; readonly answer: readonly string[] };
}

/** What a client says of itself in `initializationOptions`. */
export interface ClientOptions {
  /** `true` if the client answers `bullfiddle/read` and `bullfiddle/list`; else the server reads files itself where it can. */
  readonly reads?: boolean;
  /** Settings for clients that are not asked for theirs. */
  readonly settings?: unknown;
}
