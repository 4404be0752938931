// A voice while its notes are being read: what has been built, and what holds from here on.
import type { ClefValue, KeyValue, MeterValue, VoiceProperties } from '../../abc/tree/fields.ts';
import type { Offset, Span } from '../../text/span.ts';
import { ZERO } from '../fraction.ts';
import { signatureOf } from '../key.ts';
import type { Bar, Fraction, Head, Instruction, Lyric, Mark, Rest, ScoreNote, Slur, Voice, VoiceId } from '../types.ts';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

export type HeadDraft = Mutable<Head>;
export type NoteDraft = Mutable<Omit<ScoreNote, 'heads' | 'marks'>> & { heads: HeadDraft[]; marks: readonly Mark[] };
export type RestDraft = Mutable<Rest>;
export type BarDraft = Mutable<Bar>;

/** A tuplet still running: the factor on lengths and the notes it has left. */
interface RunningTuplet {
  readonly factor: Fraction;
  left: number;
  readonly span: Span;
}

/** A broken rhythm sign that waits for its second note. */
export interface BrokenRhythm {
  /** On the note to come. */
  readonly factor: Fraction;
  readonly toward: 'left' | 'right';
  readonly degree: number;
  readonly span: Span;
  /** The length of the note before, without this sign. */
  readonly before: Fraction;
}

export interface VoiceState {
  readonly id: VoiceId;
  properties: VoiceProperties;
  clef: ClefValue;
  readonly clefChanges: { onset: Fraction; clef: ClefValue }[];
  /** Semitones from written to sounding pitch: clef octave and `transpose=`. */
  soundShift: number;
  meter: MeterValue;
  unit: Fraction;
  key: KeyValue;
  signature: readonly number[];

  readonly notes: NoteDraft[];
  readonly rests: RestDraft[];
  readonly bars: BarDraft[];
  readonly slurs: Slur[];
  readonly lyrics: Lyric[];
  readonly instructions: Instruction[];
  readonly parts: { label: string; bar: number; span: Span }[];

  time: Fraction;
  barStart: Fraction;
  barFrom: Offset;
  /** Numbers of notes and rests when the bar began. */
  barNotes: number;
  barRests: number;
  /** The overlay layer being read, and where the longest layer before it ended. */
  layer: number;
  layersEnd: Fraction;
  /** Accidentals of this bar by letter (and octave), as `reach` says. */
  readonly accidentals: Map<number, number>;
  part: string | null;
  ending: readonly number[];
  startRepeats: number;
  restBars: number;

  /** Marks that wait for the next note; null for none. */
  marks: Mark[] | null;
  graces: NoteDraft[];
  tuplets: RunningTuplet[];
  /** The note or rest just read, for broken rhythm and ties; null after a bar line. */
  last: NoteDraft | RestDraft | null;
  broken: BrokenRhythm | null;
  /** Where the white space just read ends. */
  spaceTo: Offset;
  /** By layer: the note whose tied heads wait for their ends. */
  readonly tied: (NoteDraft | null)[];
  slursToOpen: { dotted: boolean; open: Span }[];
  readonly openSlurs: { dotted: boolean; open: Span; first: NoteDraft }[];

  /** Where in `notes` the next lyrics and symbol lines begin. */
  lyricsFrom: number;
  lyricsAt: number;
  verse: number;
  symbolsFrom: number;
  symbolsAt: number;
  symbolLines: number;
}

const TREBLE: ClefValue = { shape: 'treble', line: null, octave: 0 };

export interface VoiceStart {
  readonly meter: MeterValue;
  readonly unit: Fraction;
  readonly key: KeyValue;
  readonly properties: VoiceProperties;
}

export function newVoice(id: VoiceId, start: VoiceStart, from: Offset): VoiceState {
  const voice: VoiceState = {
    id,
    properties: start.properties,
    clef: TREBLE,
    clefChanges: [],
    soundShift: 0,
    meter: start.meter,
    unit: start.unit,
    key: start.key,
    signature: signatureOf(start.key),
    notes: [],
    rests: [],
    bars: [],
    slurs: [],
    lyrics: [],
    instructions: [],
    parts: [],
    time: ZERO,
    barStart: ZERO,
    barFrom: from,
    barNotes: 0,
    barRests: 0,
    layer: 0,
    layersEnd: ZERO,
    accidentals: new Map(),
    part: null,
    ending: [],
    startRepeats: 0,
    restBars: 0,
    marks: null,
    graces: [],
    tuplets: [],
    last: null,
    broken: null,
    spaceTo: -1,
    tied: [],
    slursToOpen: [],
    openSlurs: [],
    lyricsFrom: 0,
    lyricsAt: 0,
    verse: 0,
    symbolsFrom: 0,
    symbolsAt: 0,
    symbolLines: 0,
  };
  setProperties(voice, {});
  return voice;
}

/** Adds properties to those that hold; a new clef is noted with its place. */
export function setProperties(voice: VoiceState, properties: VoiceProperties): void {
  voice.properties = { ...voice.properties, ...properties };
  const clef = voice.properties.clef ?? TREBLE;
  if (voice.notes.length === 0 && voice.rests.length === 0) voice.clef = clef;
  else if (properties.clef) voice.clefChanges.push({ onset: voice.time, clef });
  voice.soundShift = 12 * clef.octave + (voice.properties.transpose ?? 0);
}

export function setKey(voice: VoiceState, key: KeyValue): void {
  voice.key = key;
  voice.signature = signatureOf(key);
  voice.accidentals.clear();
  setProperties(voice, key.properties);
}

export const finished = (voice: VoiceState): Voice => ({
  id: voice.id,
  properties: voice.properties,
  clef: voice.clef,
  clefChanges: voice.clefChanges,
  notes: voice.notes,
  rests: voice.rests,
  bars: voice.bars,
  slurs: voice.slurs,
  lyrics: voice.lyrics,
  instructions: voice.instructions,
  parts: voice.parts,
});
