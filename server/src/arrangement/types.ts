// A bass part, its plan (JSON-safe) and the stages that checks and features ask for.

import type { Book, TuneTree } from '../abc/tree/tree.ts';
import type { Setup } from '../bass/types.ts';
import type { Articulation, Finger, Fingered, HandPlace, LimitCode, Task, Unplayable } from '../fingering/types.ts';
import type { Fraction, NoteId, Score, ScoreNote, VoiceId } from '../score/types.ts';
import type { Offset, Span } from '../text/span.ts';

/** A problem found while reading declarations and pins; spans relative to the tune. */
export interface PartProblem extends Span {
  readonly code: 'bullfiddle.unknown-key' | 'bullfiddle.bad-value' | 'pin.contradiction' | 'pin.chord-symbol' | 'pin.unknown-string';
  readonly message: string;
  /** Edits (relative to the tune) that mend it, if there are any. */
  readonly fix: { readonly title: string; readonly edits: readonly { readonly span: Span; readonly insert: string }[] } | null;
}

/** One onset of a bass part, as the player sees it. */
export interface PartNote {
  /** The written note where it begins; tied continuations are in `tied`. */
  readonly id: NoteId;
  readonly tied: readonly NoteId[];
  readonly note: ScoreNote;
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Sounding MIDI of each head. */
  readonly sounding: readonly number[];
  readonly articulation: Articulation;
  /** For each head, what the text pins and where it says so (spans relative to the tune). */
  readonly pins: readonly HeadPin[];
  /** Where the note's text ends: that of the last tied note. */
  readonly to: Offset;
  /** Indices of earlier attacks that sound on under this one (tied heads of a double stop). */
  readonly held: readonly number[];
  readonly handStop: number | null;
}

export interface HeadPin {
  readonly finger: { readonly value: Finger; readonly span: Span } | null;
  /** Name of the string (`G`). `carried` is true where a string text further back decides. */
  readonly string: { readonly value: string; readonly span: Span; readonly carried: boolean } | null;
  readonly harmonic: { readonly span: Span } | null;
}

/** Tempo by which a part is judged; null where the tune names none. */
export interface PartTempo {
  /** From where it holds; the first holds from the start. */
  readonly onset: Fraction;
  readonly beat: Fraction;
  readonly bpm: number;
  readonly from: Span;
}

export interface BassPart {
  readonly kind: 'bass';
  readonly voice: VoiceId;
  readonly setup: Setup;
  readonly notes: readonly PartNote[];
  /** The beat of the tune's meter, in which tempos are told where the tune names none. */
  readonly beat: Fraction;
  readonly tempo: PartTempo | null;
  /** All tempos in order; `tempo` is the first. */
  readonly tempos: readonly PartTempo[];
  /** Joins of repeats and endings between indices of `notes`. */
  readonly jumps: readonly { readonly from: number; readonly to: number; readonly gap: Fraction }[];
  readonly breaks: readonly number[];
  readonly version: VersionTag | null;
  readonly allow: readonly string[];
  readonly problems: readonly PartProblem[];
}

export interface Melody {
  readonly kind: 'melody';
  readonly voice: VoiceId;
  readonly version: VersionTag | null;
  readonly problems: readonly PartProblem[];
}

/** `I:bullfiddle tune=SLUG version=low ...` */
export interface VersionTag {
  readonly tune: string;
  readonly version: string;
  readonly from: string | null;
  readonly made: string | null;
  readonly extra: readonly string[];
  readonly keyShift: number;
}

/** A place in the plan: string by name, stop, finger, distance from the nut in mm. */
export interface PlanPlace {
  readonly string: string;
  readonly stop: number;
  readonly finger: Finger;
  readonly mm: number;
  readonly harmonic: boolean;
}

export interface PlanNote {
  readonly id: NoteId;
  /** Relative to the tune; covers ties to the last tied note. */
  readonly from: Offset;
  readonly to: Offset;
  readonly onset: string;
  readonly sounding: readonly number[];
  /** One a head; empty inside an unplayable window. */
  readonly places: readonly PlanPlace[];
  readonly hand: HandPlace | null;
  readonly shift: boolean;
  readonly pinned: readonly ('finger' | 'string' | 'harmonic')[];
  readonly articulation: 'pluck' | 'hammer' | 'pull' | 'slide' | 'tie';
  /** How the attack is made, in the engine's words (a scoop is a plucked slide). */
  readonly attack: Articulation;
  readonly tied: readonly NoteId[];
}

export interface PlanWindow {
  readonly from: Offset;
  readonly to: Offset;
  readonly notes: readonly NoteId[];
  readonly code: LimitCode;
  readonly also: readonly LimitCode[];
  readonly needed: number;
  readonly available: number;
  readonly unit: 'mm' | 'ms' | 'semitones' | 'none';
  readonly slowdown: number | null;
}

/** The fingering of one bass voice, by note id, as JSON. */
export interface Plan {
  readonly voice: VoiceId;
  readonly playable: boolean;
  readonly exact: boolean;
  readonly cost: number | null;
  /** Beats a minute in the tune's beat (`beat` as a fraction string). */
  readonly topTempo: { readonly beat: string; readonly comfortable: number | null; readonly limit: number | null };
  readonly tempo: { readonly beat: string; readonly bpm: number } | null;
  readonly shifts: number;
  readonly travelMm: number;
  readonly strings: readonly string[];
  readonly notes: readonly PlanNote[];
  readonly windows: readonly PlanWindow[];
}

/** Settings that hold for a file: editor's, `bullfiddle.json`'s, and defaults, already merged. */
export interface FileConfig {
  readonly setup: Setup;
  readonly severities: ReadonlyMap<string, 'error' | 'warning' | 'info' | 'off'>;
}

/** A part with the task made of it and what the engine says. */
export interface FingeredPart {
  readonly part: BassPart;
  readonly task: Task;
  readonly result: Fingered | Unplayable;
  readonly plan: Plan;
  /** The part fingered again as if nothing were pinned at the note with this index: what could be chosen there instead. A search of its own. */
  readonly freed: (note: number) => FingeredPart;
  /** Another reading of the part, or a stretch of it, fingered with the same tables. A search of its own. */
  readonly again: (part: BassPart) => FingeredPart;
}

/** What is known of a tune, by stages; each stage is made when asked for. Spans are relative to the tune. */
export interface TreeStage {
  readonly book: Book;
  readonly index: number;
  readonly tree: TuneTree;
  readonly text: string;
}
export interface ScoreStage extends TreeStage {
  readonly score: Score;
}
export interface PartStage extends ScoreStage {
  readonly config: FileConfig;
  readonly parts: readonly (BassPart | Melody)[];
  /** The other tunes of the book that declare the same `tune=` slug. */
  readonly siblings: readonly ScoreStage[];
}
export interface PlanStage extends PartStage {
  readonly fingered: readonly FingeredPart[];
}
