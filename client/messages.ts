// The messages between the extension host and the preview page, both ways.

import type { Plan } from '../server/src/arrangement/types.ts';
import type { Revision, Scene, SceneFinding } from '../server/src/engraving/types.ts';
import type { Practice } from './practice.ts';

export type { Plan, Revision, Scene, SceneFinding };

/** How the sheet is shown. */
export interface Look {
  readonly density: 'all' | 'changes' | 'pins';
  readonly layout: 'stacked' | 'columns';
  readonly follow: 'mouse' | 'always' | 'never';
}

/** From the host to the page. */
export type ToPage =
  | { readonly kind: 'scene'; readonly scene: Scene; readonly look: Look }
  /** A plan (and the findings that rest on it) for a scene shown before. */
  | {
      readonly kind: 'plan';
      readonly uri: string;
      readonly tune: number;
      readonly revision: Revision;
      readonly plans: readonly Plan[];
      readonly findings: readonly SceneFinding[];
    }
  /** The caret, as an offset into the tune's text. */
  | {
      readonly kind: 'caret';
      readonly uri: string;
      readonly tune: number;
      readonly offset: number;
      readonly revision: Revision;
      readonly reveal: 'scroll' | 'mark';
    }
  /** Nothing to show, and why. */
  | { readonly kind: 'nothing'; readonly message: string }
  | {
      readonly kind: 'places';
      readonly ask: number;
      readonly note: number;
      readonly head: number;
      readonly choices: readonly PlaceChoice[];
    }
  | { readonly kind: 'play'; readonly action: 'toggle' | 'stop' }
  /** Notes of the recorded bass, by their MIDI number; none if they cannot be read. */
  | { readonly kind: 'samples'; readonly samples: readonly { readonly root: number; readonly bytes: Uint8Array }[] }
  /** How a file was practised last; sent before its first scene. */
  | { readonly kind: 'practice'; readonly uri: string; readonly practice: Practice };

const sameRevision = (a: Revision, b: Revision): boolean => a.document === b.document && a.settings === b.settings;

/** Whether something was made of the text and tune that a scene shows. */
export const isOf = (scene: Scene, made: { readonly uri: string; readonly tune: number; readonly revision: Revision }): boolean =>
  scene.uri === made.uri && scene.tune === made.tune && sameRevision(scene.revision, made.revision);

/** A scene with the plan that came after it; as it was if the plan is another's. */
export const planned = (scene: Scene, news: Extract<ToPage, { kind: 'plan' }>): Scene =>
  isOf(scene, news) ? { ...scene, plans: news.plans, findings: news.findings } : scene;

/** Another place for a note: what it is, what it costs, what it does to the neighbours, in words. */
export interface PlaceChoice {
  readonly string: string;
  readonly stop: number;
  readonly finger: string;
  readonly harmonic: boolean;
  /** Milli-units over the best. */
  readonly regret: number;
  readonly effect: string;
}

/** From the page to the host. */
export type FromPage =
  | { readonly kind: 'ready' }
  /** The scene or plan of this revision is on the screen. */
  | { readonly kind: 'painted'; readonly uri: string; readonly revision: Revision; readonly what: 'scene' | 'plan'; readonly ms: number }
  /** Go to this stretch of the tune's text. */
  | {
      readonly kind: 'reveal';
      readonly uri: string;
      readonly tune: number;
      readonly from: number;
      readonly to: number;
      readonly revision: Revision;
      readonly focus: 'take' | 'keep';
      /** How long ago it was asked for, in ms: a page that draws heeds a click late. */
      readonly age: number;
    }
  | {
      readonly kind: 'ask-places';
      readonly ask: number;
      readonly uri: string;
      readonly tune: number;
      readonly note: number;
      readonly head: number;
      readonly revision: Revision;
    }
  | {
      readonly kind: 'choose';
      readonly uri: string;
      readonly tune: number;
      readonly note: number;
      readonly head: number;
      readonly choice: PlaceChoice;
      readonly revision: Revision;
    }
  /** The page is about to play and wants the recorded bass. */
  | { readonly kind: 'ask-samples'; readonly roots: readonly number[] }
  /** The reader has set the controls for a file. */
  | { readonly kind: 'practice'; readonly uri: string; readonly practice: Practice }
  | { readonly kind: 'failed'; readonly where: string; readonly message: string };
