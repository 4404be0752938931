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
  readonly regret: number;
  readonly effect: string;
}

/** A replacement in a document; offsets are those of `version`. */
export interface DocumentEdits {
  readonly version: number;
  readonly edits: readonly { readonly from: number; readonly to: number; readonly insert: string }[];
}

/** Requests from the client. A null answer means that the text has moved on. */
export interface AskServer {
  readonly 'bullfiddle/places': { readonly ask: NoteAt; readonly answer: readonly Choice[] | null };
  readonly 'bullfiddle/choose': { readonly ask: NoteAt & { readonly choice: Choice }; readonly answer: DocumentEdits | null };
}

/** Requests from the server: files are read through the editor, so that virtual folders work. */
export interface AskClient {
  readonly 'bullfiddle/read': { readonly ask: { readonly uri: string }; readonly answer: string | null };
}

/** What a client says of itself in `initializationOptions`. */
export interface ClientOptions {
  /** `true` if the client answers `bullfiddle/read`; else the server reads files itself where it can. */
  readonly reads?: boolean;
  /** Settings for clients that are not asked for theirs. */
  readonly settings?: unknown;
}
