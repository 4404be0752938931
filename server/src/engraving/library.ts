// The one door to the engraving library (abcjs 6.7.2, pinned): what we read of its tree and layout, and the two calls we make.
import abcjs from 'abcjs';
import type { Recorder } from './recorder.ts';

/** A pitch of a note, as parsed. `pitch` counts diatonic steps, 0 = middle C. */
export interface LibPitch {
  readonly pitch: number;
  startTie?: object;
  endTie?: boolean;
  startSlur?: { label: number }[];
  endSlur?: number[];
}

/** A note, rest, bar line or change inside a voice. */
export interface LibElement {
  readonly el_type: string;
  readonly startChar: number;
  readonly endChar: number;
  readonly duration?: number;
  readonly pitches?: LibPitch[];
  readonly gracenotes?: LibPitch[];
  readonly rest?: { readonly type: string };
  readonly lyric?: unknown;
  readonly decoration?: readonly string[];
  startSlur?: { label: number }[];
  endSlur?: number[];
  startTriplet?: number;
  endTriplet?: boolean;
  /** With `startTriplet`: time of a note as a share of its written length, and how many notes the tuplet has. */
  tripletMultiplier?: number;
  tripletR?: number;
  /** Ours: where the rest of a tuplet stands whose part begins here. */
  openTuplet?: 'left' | 'right' | 'both';
  readonly startBeam?: boolean;
  readonly endBeam?: boolean;
  readonly type?: string;
  /** Put there by drawing. */
  abselem?: LibAbsolute;
}

export interface LibStaff {
  readonly voices: LibElement[][];
}

/** A line of the tune: a system, or something that is not music. */
export interface LibLine {
  readonly staff?: LibStaff[];
  readonly subtitle?: { readonly text: string };
  readonly text?: unknown;
  staffGroup?: LibStaffGroup;
}

/** A drawn part of an element: head, stem, flag. Its place is fixed by layout. */
export interface LibRelative {
  readonly x: number;
  readonly w: number;
  readonly pitch: number;
  readonly pitch2?: number;
  readonly type: string;
  readonly c: string | null;
  readonly linewidth?: number;
}

/** An element after layout. */
export interface LibAbsolute {
  readonly type: string;
  readonly abcelem: LibElement;
  readonly x: number;
  readonly w: number;
  readonly top?: number;
  readonly bottom?: number;
  readonly heads: readonly LibRelative[];
  readonly extra: readonly LibRelative[];
  readonly children: readonly LibRelative[];
  readonly beam?: object;
}

export interface LibStaffLayout {
  top: number;
  bottom: number;
  readonly absoluteY: number;
  /** Heights in steps of the rows above and below the notes; `lyricHeightAbove` is the innermost above. */
  readonly specialY: { lyricHeightAbove: number };
}

/** The bracket or figure of a tuplet between two notes; its ends are fixed by layout. */
export interface LibBracket {
  readonly type: 'TripletElem';
  anchor1: { readonly x: number; readonly w: number; readonly parent: LibAbsolute };
  anchor2?: { readonly x: number; readonly w: number };
  /** The notes have a beam of their own, which carries the figure: no bracket is drawn. */
  readonly hasBeam?: boolean;
  xTextPos?: number;
}

export interface LibVoiceLayout {
  readonly children: readonly LibAbsolute[];
  readonly staff: LibStaffLayout;
  readonly duplicate: boolean;
  /** What joins notes: ties, slurs, brackets. */
  readonly otherchildren: readonly (LibBracket | { readonly type: 'other' })[];
}

export interface LibStaffGroup {
  readonly startx: number;
  readonly w: number;
  height: number;
  readonly staffs: readonly LibStaffLayout[];
  readonly voices: readonly LibVoiceLayout[];
}

/** Marks that cross from one line to the next; kept by the library's own objects, read as plain data. */
export interface LibCrossing {
  readonly force?: unknown;
  readonly stemDir?: unknown;
  readonly dotted?: unknown;
}

/** What measures texts for the layout, in units of the engraving. */
export interface LibTextSize {
  calc(text: string, font: string, kind: string): { readonly width: number; readonly height: number };
  attr(font: string, kind: string): { readonly font: { readonly size: number } };
}

/** The part of the library's engraver that carries state from line to line, and what it measures with. */
export interface LibEngraver {
  getTextSize: LibTextSize;
  slursbyvoice: Record<string, Record<string, LibCrossing>>;
  tiesbyvoice: Record<string, LibCrossing[]>;
  endingsbyvoice: Record<string, unknown>;
  scaleByVoice: Record<string, number>;
  colorByVoice: Record<string, string>;
  style: unknown;
  hasVocals: boolean;
  measureLength: number;
}

/** What the library needs of a tune to draw it. */
export interface LibTune {
  readonly formatting: Record<string, unknown>;
  readonly media: string;
  readonly metaText: Record<string, unknown>;
  readonly metaTextInfo: Record<string, unknown>;
  lines: LibLine[];
  getMeterFraction: (() => { readonly num: number; readonly den: number }) | null;
  tablatures: readonly LibTabRoom[] | null;
}

/** A hook that runs between layout and drawing, one a staff. */
export interface LibTabRoom {
  readonly classz: new () => { init(): void; render(renderer: unknown, line: LibLine, staff: number): void };
  readonly params: object;
  instance: object | null;
  readonly tabType: object;
}

export interface LibController {
  engraver: LibEngraver | null;
  readonly renderer: { abctune: unknown; paper: Recorder };
  engraveABC(tune: LibTune): void;
}

interface LibParse {
  parse(text: string, switches: object): void;
  getTune(): LibTune;
}

const { Parse, EngraverController } = (
  abcjs as unknown as {
    readonly test: {
      readonly Parse: new () => LibParse;
      readonly EngraverController: new (host: object, options: object) => LibController;
    };
  }
).test;

/** The library's tree of one tune. May throw on odd input: call it behind the guard. */
export function parseTune(text: string): LibTune {
  const parser = new Parse();
  parser.parse(text, {});
  return parser.getTune();
}

/** Where the library begins: an svg of its own in a host. Neither is drawn on. */
const nowhere = { appendChild() {}, setAttribute() {}, setAttributeNS() {}, style: {}, parentNode: null };
const stands = { document: { createElementNS: () => nowhere }, navigator: { userAgent: '' } };

/** Runs `work` with what the library takes for a browser where there is none. */
function inBrowser<T>(work: () => T): T {
  const missing = Object.entries(stands).filter(([name]) => !(name in globalThis));
  for (const [name, value] of missing) Object.defineProperty(globalThis, name, { value, configurable: true });
  try {
    return work();
  } finally {
    for (const [name] of missing) Reflect.deleteProperty(globalThis, name);
  }
}

/** A controller that draws on `recorder`. */
export function controllerOn(recorder: Recorder, staffWidth: number): LibController {
  const options = {
    staffwidth: staffWidth,
    paddingtop: 0,
    paddingbottom: 0,
    paddingleft: 0,
    paddingright: 0,
    ariaLabel: '',
    add_classes: false,
  };
  const controller = inBrowser(() => new EngraverController(nowhere, options));
  controller.renderer.paper = recorder;
  return controller;
}
