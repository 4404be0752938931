// Chords and a drone to play against: where they sound and how high, from a tune played out.

import { isOpeningPickup } from './bar-numbers.ts';
import { type ChordName, readChordName } from './chord-name.ts';
import { add, compare, div, equal, fraction, mul, sub, ZERO } from './fraction.ts';
import { letterIndex, SEMITONES } from './key.ts';
import { barLength, stepOfFour } from './meter.ts';
import type { Bar, Fraction, Midi, Played, PlayedBar, Score, Voice } from './types.ts';

export type Drone = 'root' | 'fifth';

/** Onset and duration in whole notes of played-out time. */
export interface BackingEvent {
  readonly kind: 'chord' | 'drone';
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Ascending. */
  readonly midi: readonly Midi[];
}

/** Lowest notes of the octaves in which tones are put: chords from G3, clear of the bass and under a fiddle; a drone's root from C3 (common practice). */
const lowest = { chord: 55, drone: 48 } as const;

/** The tone of a pitch class within the octave that begins at `from`. */
const within = (from: Midi, pitchClass: number): Midi => from + ((((pitchClass - from) % 12) + 12) % 12);

interface Strokes {
  /** Length of a stroke, and what separates the places where one may fall. */
  readonly unit: Fraction;
  readonly sounds: (place: number) => boolean;
}

/**
 * Where chords are struck in a bar, between the notes of the bass (common practice): on 2 and 4 in 4/4, off the beat in 2/4 and cut
 * time, on 2 and 3 in 3/4 and 9/8, on the second beat in 6/8, on 2 and 4 in 12/8; in other meters on every second beat; none in free meter.
 */
function strokesOf({ meter }: Bar): Strokes | null {
  if (meter.kind === 'none') return null;
  const unit = stepOfFour(meter);
  const perBar = div(barLength(meter)!, unit);
  return { unit, sounds: equal(perBar, fraction(3, 1)) ? (place) => place % 3 !== 0 : isOdd };
}

const isOdd = (place: number): boolean => place % 2 === 1;

/** Soft chords of the first voice that has chord symbols; empty where none can be read. */
export function chordEvents(score: Score, played: Played): readonly BackingEvent[] {
  const voice = score.voices.find((each) => symbolsOf(each).length > 0);
  if (voice === undefined) return [];
  const symbols = symbolsOf(voice);
  const events: BackingEvent[] = [];
  let sounding: readonly Midi[] = [];
  for (const place of orderOf(voice, played)) {
    const bar = voice.bars[place.bar]!;
    const inBar = symbols.filter((symbol) => symbol.bar === place.bar);
    for (const { at, unit } of strokesIn(bar)) {
      const now = inBar.findLast((symbol) => compare(sub(symbol.onset, bar.onset), at) <= 0)?.midi ?? sounding;
      if (now.length > 0) events.push({ kind: 'chord', onset: add(place.onset, at), duration: unit, midi: now });
    }
    sounding = inBar.at(-1)?.midi ?? sounding;
  }
  return events;
}

/** Strokes of a bar from its start; those of a pickup are the last of its full bar. The last stroke ends with the bar. */
function strokesIn(bar: Bar): readonly { readonly at: Fraction; readonly unit: Fraction }[] {
  const strokes = strokesOf(bar);
  if (strokes === null) return [];
  const missing = isOpeningPickup(bar) && bar.nominal ? sub(bar.nominal, bar.duration) : ZERO;
  const end = add(missing, bar.duration);
  const found: { at: Fraction; unit: Fraction }[] = [];
  for (let place = 0; ; place++) {
    const at = mul(strokes.unit, fraction(place, 1));
    if (compare(at, end) >= 0) return found;
    if (!strokes.sounds(place) || compare(at, missing) < 0) continue;
    const left = sub(end, at);
    found.push({ at: sub(at, missing), unit: compare(left, strokes.unit) < 0 ? left : strokes.unit });
  }
}

interface Symbol {
  readonly bar: number;
  readonly onset: Fraction;
  /** Empty where the symbol says that no chord sounds. */
  readonly midi: readonly Midi[];
}

function symbolsOf(voice: Voice): readonly Symbol[] {
  return voice.notes.flatMap((note) =>
    note.marks.flatMap((mark): readonly Symbol[] => {
      const chord = mark.kind === 'chord-symbol' ? readChordName(mark.text) : null;
      if (chord === null) return [];
      const head = note.heads[0];
      const midi = chord === 'none' ? [] : voiced(chord, head === undefined ? 0 : head.midi - head.written);
      return [{ bar: note.bar, onset: note.onset, midi }];
    }),
  );
}

/** The tones in close position within one octave, in whichever turn that gives; the note after a stroke is left to the bass. */
function voiced({ root, tones }: ChordName, transposed: number): readonly Midi[] {
  const rootClass = SEMITONES[letterIndex(root.letter)]! + root.alter + transposed;
  return tones.map((tone) => within(lowest.chord, rootClass + tone)).sort((a, b) => a - b);
}

const orderOf = (voice: Voice, played: Played): readonly PlayedBar[] => played.voices.find((each) => each.voice === voice.id)?.order ?? [];

/** The key's root, alone or with its fifth, held as long as the key; empty where no key is named. */
export function droneEvents(score: Score, played: Played, drone: Drone): readonly BackingEvent[] {
  const voice = score.voices.find((each) => each.bars.length > 0);
  const events: BackingEvent[] = [];
  for (const { bar: index, onset } of voice === undefined ? [] : orderOf(voice, played)) {
    const bar = voice!.bars[index]!;
    const midi = droneOf(bar, drone);
    const last = events.at(-1);
    if (midi === null) continue;
    const goesOn = last !== undefined && last.midi[0] === midi[0] && compare(add(last.onset, last.duration), onset) === 0;
    if (goesOn) events[events.length - 1] = { ...last, duration: add(last.duration, bar.duration) };
    else events.push({ kind: 'drone', onset, duration: bar.duration, midi });
  }
  return events;
}

function droneOf({ key: { tonic } }: Bar, drone: Drone): readonly Midi[] | null {
  if (tonic === null) return null;
  const root = within(lowest.drone, SEMITONES[letterIndex(tonic.letter)]! + tonic.alter);
  return drone === 'root' ? [root] : [root, root + 7];
}
