// A melody as the arranger sees it: one line of tones with ties merged, bars, chords and the grid of beats.
import type { MeterValue } from '../abc/tree/fields.ts';
import { add, compare, div, fraction, sub } from '../score/fraction.ts';
import { hasBeatsOfThree } from '../score/meter.ts';
import type { Bar, Fraction, Head, NoteId, ScoreNote, Voice } from '../score/types.ts';
import type { SpelledPitch } from './interval.ts';
import { isPickup, type Section, sectionsOf } from './sections.ts';

/** One sounding tone. Times are in whole notes from the tune's start. */
export interface Tone {
  readonly id: NoteId;
  readonly bar: number;
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Spelled as written. */
  readonly spelled: SpelledPitch;
  /** By the standard. */
  readonly midi: number;
  /** Whether it begins on the grid of beats. */
  readonly onGrid: boolean;
  /** Off the grid but sounding over the next grid point. */
  readonly syncopated: boolean;
  readonly pickup: boolean;
}

export interface Melody {
  readonly voice: Voice;
  readonly sections: readonly Section[];
  readonly tones: readonly Tone[];
  readonly rests: readonly { readonly bar: number; readonly onset: Fraction; readonly duration: Fraction }[];
  readonly chords: readonly { readonly bar: number; readonly onset: Fraction; readonly text: string }[];
}

/** The melody of a voice: the main layer, the highest head of a chord, graces left out. */
export function melodyOf(voice: Voice): Melody {
  const sections = sectionsOf(voice);
  const notes = voice.notes.filter((note) => note.layer === 0 && note.kind === 'note' && note.heads.length > 0);
  const tones: Tone[] = [];
  const tiedFrom = new Map<NoteId, number>();
  for (const note of notes) {
    const head = highest(note);
    const from = head.tied ? tiedFrom.get(note.id) : undefined;
    const index = from ?? tones.length;
    tones[index] = from === undefined ? toneOf(voice, note, head) : lengthened(tones[from]!, note, voice);
    if (head.tieTo !== null) tiedFrom.set(head.tieTo.note, index);
  }
  return {
    voice,
    sections,
    tones,
    rests: voice.rests.filter((rest) => rest.layer === 0),
    chords: notes.flatMap((note) =>
      note.marks.flatMap((mark) => (mark.kind === 'chord-symbol' ? [{ bar: note.bar, onset: note.onset, text: mark.text }] : [])),
    ),
  };
}

const highest = (note: ScoreNote): Head => note.heads.reduce((a, b) => (b.midi > a.midi ? b : a));

function toneOf(voice: Voice, note: ScoreNote, head: Head): Tone {
  const bar = voice.bars[note.bar]!;
  const { letter, alter, octave, midi } = head;
  return {
    id: note.id,
    bar: note.bar,
    onset: note.onset,
    duration: head.duration,
    spelled: { letter, alter, octave },
    midi,
    pickup: isPickup(voice, bar),
    ...gridOf(voice, bar, note.onset, head.duration),
  };
}

function lengthened(tone: Tone, by: ScoreNote, voice: Voice): Tone {
  const duration = sub(add(by.onset, by.duration), tone.onset);
  return { ...tone, duration, ...gridOf(voice, voice.bars[tone.bar]!, tone.onset, duration) };
}

/** Distance of grid points: quarters, or dotted quarters in compound meters. */
export function gridStep(meter: MeterValue): Fraction {
  return meter.kind === 'time' && hasBeatsOfThree(meter) ? fraction(3, meter.unit) : fraction(1, 4);
}

/** Where the bar's count begins: a pickup counts back from its end. */
export function countStart(voice: Voice, bar: Bar): Fraction {
  return isPickup(voice, bar) ? sub(bar.onset, sub(bar.nominal!, bar.duration)) : bar.onset;
}

function gridOf(voice: Voice, bar: Bar, onset: Fraction, duration: Fraction): { readonly onGrid: boolean; readonly syncopated: boolean } {
  const step = gridStep(bar.meter);
  const start = countStart(voice, bar);
  const place = div(sub(onset, start), step);
  const onGrid = place.den === 1;
  const next = Math.floor(place.num / place.den) + 1;
  const end = div(sub(add(onset, duration), start), step);
  return { onGrid, syncopated: !onGrid && compare(end, fraction(next, 1)) > 0 };
}
