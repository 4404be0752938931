// The task given to the engine and what it answers. Times are integer microseconds, costs integer milli-units (1000 = about one shift of two semitones).
import type { Hand, Player } from '../bass/types.ts';

export type { Player };

export type Finger = '0' | '1' | '2' | '3' | '4' | 'T';

/** What the player decided for one pitch of a note. */
export interface Pin {
  readonly finger: Finger | null;
  /** Index into the tuning's strings, highest first. */
  readonly string: number | null;
  readonly harmonic: boolean;
}

/** How a note begins. `hammer`/`pull` by slur from the note before; `glide`: one pluck, same finger, from the note before; `scoop`: plucked, approached from just below. */
export type Articulation = 'pluck' | 'hammer' | 'pull' | 'glide' | 'scoop' | 'left-hand' | 'dead';

/** One onset of the part. Ties are merged; graces stand as notes of their own with a short duration. */
export interface TaskNote {
  /** Sounding MIDI, one a head, in the order of the written heads. */
  readonly pitches: readonly number[];
  readonly onset: number;
  readonly duration: number;
  readonly articulation: Articulation;
  /** One a head. */
  readonly pins: readonly Pin[];
  /** Finger 1's (or the thumb's) stop asked for from here (`hand-stop=`), else null. */
  readonly handStop: number | null;
  /** Indices of earlier notes still sounding by instruction (held), normally empty. */
  readonly held: readonly number[];
}

/** A join other than from a note to the next: from the last note of a pass (`from`) to the first of the next (`to`); `gap` is the inter-onset time. */
export interface Jump {
  readonly from: number;
  readonly to: number;
  readonly gap: number;
}

export interface Task {
  readonly player: Player;
  readonly notes: readonly TaskNote[];
  /** Repeats and endings; empty for a part without. */
  readonly jumps: readonly Jump[];
  /** Indices i where note i is not reached from note i-1 (a second ending's first note is reached by a jump only). */
  readonly breaks: readonly number[];
  /** Whether time limits may make a passage impossible (false without a tempo: shifts are then never too fast). */
  readonly timed: 'judged' | 'untimed';
}

/** The place of one pitch. */
export interface Place {
  /** Index into the tuning's strings. */
  readonly string: number;
  readonly stop: number;
  readonly finger: Finger;
  readonly harmonic: boolean;
}

export interface HandPlace {
  readonly frame: 'closed' | 'open' | 'upper' | 'thumb';
  /** Stop of finger 1 (neck) or of the thumb. */
  readonly stop: number;
}

/** The answer for one note. */
export interface Placing {
  readonly places: readonly Place[];
  /** null before the first stopped note. */
  readonly hand: HandPlace | null;
  /** Whether the hand changes place on the way here. */
  readonly shift: boolean;
  /** Way of the hand in mm. */
  readonly travel: number;
}

/** Another answer for one note, and what the whole part then costs more than the best. */
export interface Alternative {
  readonly places: readonly Place[];
  readonly hand: HandPlace | null;
  readonly regret: number;
}

/** Factor by which the part may be sped up (over 1) or must be slowed (under 1) from the task's times: to the limit, and within comfort. null: no time in it binds. */
export interface TopTempo {
  readonly limit: number | null;
  readonly comfortable: number | null;
}

/** A state of a note that can be come to, and the least cost of that. */
export interface Reached {
  readonly places: readonly Place[];
  /** The hand; where all strings are open, the one left behind; null where there is none yet. */
  readonly hand: Hand | null;
  /** Open notes since the hand last stopped one, at most four; 0 where the hand stops this one. */
  readonly free: number;
  /** Milli-units: the potential of the state. */
  readonly cost: number;
}

/** The states of each note, along the notes as written: joins of repeats are left out, so that what comes out for a part with repeats is a bound from below. */
export type Certificate = readonly (readonly Reached[])[];

export interface Fingered {
  readonly kind: 'fingered';
  readonly cost: number;
  readonly placings: readonly Placing[];
  /** Whether repeats were weighed exactly: false when a work limit was met, and where a pass of open strings leads into a part that is come back to by itself. */
  readonly exact: boolean;
  readonly topTempo: TopTempo;
  /** Alternatives of note i, cheapest first, the chosen one first with regret 0. */
  alternatives(note: number, most: number): readonly Alternative[];
  /** What shows that nothing is cheaper, for `recheck`; with repeats, a bound from below. */
  certificate(): Certificate;
}

export type LimitCode =
  | 'range.too-low'
  | 'range.too-high'
  | 'range.off-board'
  | 'reach.too-wide'
  | 'shift.too-far'
  | 'hop.too-fast'
  | 'hammer.crosses-strings'
  | 'pull.wrong-direction'
  | 'slur.same-pitch'
  | 'slide.open-string'
  | 'slide.crosses-strings'
  | 'harmonic.no-node'
  | 'finger.not-in-frame'
  | 'thumb.too-low'
  | 'pin.contradiction';

/** A minimal passage that no hand plays: notes `first` to `last` inclusive. */
export interface Window {
  readonly first: number;
  readonly last: number;
  readonly code: LimitCode;
  /** Further limits that must be lifted together with `code`; normally empty. */
  readonly also: readonly LimitCode[];
  readonly needed: number;
  readonly available: number;
  readonly unit: 'mm' | 'ms' | 'semitones' | 'none';
  /** Least factor of slowing down that makes it playable; null = at no tempo. */
  readonly slowdown: number | null;
}

export interface Unplayable {
  readonly kind: 'unplayable';
  readonly windows: readonly Window[];
  /** The best fingering of the rest: placings are null inside windows. */
  readonly rest: readonly (Placing | null)[];
  readonly topTempo: TopTempo;
}

/** A search under way; `done` and `total` are work units for a progress line. */
export interface Running {
  readonly kind: 'running';
  readonly done: number;
  readonly total: number;
}

export interface Search {
  /** Works for about `work` units (edges visited) and says how far it came. */
  step(work: number): Running | Fingered | Unplayable;
}
