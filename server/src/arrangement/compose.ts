// Writing an arranged line as abc text: the source's parts, bars, repeats, endings and chords, new notes.
import type { KeyValue, MeterValue } from '../abc/tree/fields.ts';
import type { Accidental } from '../abc/tree/items.ts';
import { compare, div, fraction, sub } from '../score/fraction.ts';
import { signatureOf } from '../score/index.ts';
import type { Bar, Fraction, Voice } from '../score/types.ts';
import { type Interval, movedChordText, movedPitch, plainPitch, type SpelledPitch } from './interval.ts';
import { eventsOfBar, type LineEvent, lengthsOf } from './line-events.ts';
import { countStart, gridStep, type Melody } from './melody.ts';
import { accidentalFor, letters, naturals, pitchText } from './pitch-text.ts';
import type { Placed } from './thinning.ts';
import type { ScoreStage } from './types.ts';

export interface Composition {
  readonly melody: Melody;
  readonly line: readonly Placed[];
  readonly unit: Fraction;
  readonly by: Interval;
  /** Number of the text's line on which a bar begins: the source's line breaks are kept. */
  readonly rowOf: (bar: Bar) => number;
}

/** Rows of a source's text by bar: the line on which its first note stands. */
export function rowsFrom(source: ScoreStage, voice: Voice): Composition['rowOf'] {
  const starts = source.tree.lines.map(({ at }) => at);
  return (bar) => {
    const first = voice.notes.find((note) => note.bar === bar.index)?.from ?? bar.to;
    return starts.findLastIndex((at) => at <= first);
  };
}

/** The body's text, ending in a line end. */
export function composeBody(work: Composition): string {
  const { bars, parts } = work.melody.voice;
  const labels = new Map(parts.map((part) => [part.bar, part.label]));
  const breaksBefore = (i: number): boolean =>
    i > 0 && i < bars.length && (labels.has(i) || work.rowOf(bars[i]!) !== work.rowOf(bars[i - 1]!));
  let out = '';
  bars.forEach((bar, i) => {
    const label = labels.get(i);
    const fresh = i === 0 || breaksBefore(i);
    if (fresh && i > 0) out += '\n';
    if (label !== undefined) out += `P:${label}\n`;
    out += opening(bar, bars[i - 1], fresh) + changes(bar, bars[i - 1], work.by);
    out += notesText(work, bar) + closing(bar, bars[i + 1], breaksBefore(i + 1));
  });
  return `${out}\n`;
}

function opening(bar: Bar, before: Bar | undefined, fresh: boolean): string {
  const start = bar.startRepeats > 0 && fresh ? `|${':'.repeat(bar.startRepeats)}` : '';
  const entered = bar.ending.length > 0 && bar.ending.join() !== before?.ending.join();
  return start + (entered ? `[${bar.ending.join(',')} ` : '');
}

/** The sign between two bars; `broken` where a new line follows, on which a repeat then opens anew. */
function closing(bar: Bar, after: Bar | undefined, broken: boolean): string {
  const opens = broken ? '' : ':'.repeat(after?.startRepeats ?? 0);
  const ends = ':'.repeat(bar.endRepeats);
  if (ends !== '' && opens !== '') return ends + opens;
  if (ends !== '' || opens !== '') return `${ends}|${opens}`;
  if (bar.sectionEnd) return bar.closedBy?.sign.includes(']') === true ? '|]' : '||';
  if (bar.closedBy === null) return after === undefined ? '|]' : '';
  return '|';
}

function changes(bar: Bar, before: Bar | undefined, by: Interval): string {
  if (before === undefined) return '';
  const key = keyText(movedKey(bar.key, by));
  const meter = meterText(bar.meter);
  return (meter === meterText(before.meter) ? '' : `[M:${meter}]`) + (key === keyText(movedKey(before.key, by)) ? '' : `[K:${key}]`);
}

export function meterText(meter: MeterValue): string {
  if (meter.kind === 'none') return 'none';
  return meter.sign ?? `${meter.beats.join('+')}/${meter.unit}`;
}

/** A key moved by an interval; without a tonic it is told as C with its own accidentals. */
export function movedKey(key: KeyValue, by: Interval): KeyValue {
  const tonic = key.tonic === null ? null : movedPitch({ ...key.tonic, octave: 4 }, by);
  const accidentals = key.accidentals.map(({ letter, accidental }) => {
    const moved = movedPitch({ letter, alter: alters[accidental], octave: 4 }, by);
    return { letter: moved.letter, accidental: accidentalFor(moved.alter) ?? accidental };
  });
  if (tonic === null)
    return { ...key, tonic: { letter: 'C', alter: 0 }, mode: 'major', accidentals: by.semitones === 0 ? key.accidentals : accidentals };
  return { ...key, tonic: { letter: tonic.letter, alter: Math.sign(tonic.alter) as -1 | 0 | 1 }, accidentals };
}

const alters: Readonly<Record<Accidental, number>> = { __: -2, _: -1, '=': 0, '^': 1, '^^': 2 };

const modeNames: Readonly<Record<KeyValue['mode'], string>> = {
  major: '',
  minor: 'm',
  dorian: 'dor',
  phrygian: 'phr',
  lydian: 'lyd',
  mixolydian: 'mix',
  locrian: 'loc',
  none: '',
  explicit: ' exp',
  highland: '',
};

/** A key as a `K:` field says it, without clef. */
export function keyText(key: KeyValue): string {
  const tonic = key.tonic ?? { letter: 'C', alter: 0 };
  const sign = tonic.alter < 0 ? 'b' : tonic.alter > 0 ? '#' : '';
  const own = key.accidentals.map(({ letter, accidental }) => ` ${accidental}${letter.toLowerCase()}`).join('');
  return tonic.letter + sign + modeNames[key.mode] + own;
}

/** Notes are beamed within a half bar of common time, within the beat elsewhere. */
function groupStep(meter: MeterValue): Fraction {
  const whole = meter.kind === 'time' && meter.beats.reduce((a, b) => a + b, 0) === meter.unit;
  return whole ? fraction(1, 2) : gridStep(meter);
}

function notesText(work: Composition, bar: Bar): string {
  const events = eventsOfBar(work.melody, work.line, bar);
  const spell = speller(movedKey(bar.key, work.by));
  const chords = work.melody.chords.filter((chord) => chord.bar === bar.index);
  const step = groupStep(bar.meter);
  const lengths = lengthsOf(events, work.unit);
  let said = 0;
  return events
    .map((event, i) => {
      const inGroup = div(sub(event.onset, countStart(work.melody.voice, bar)), step).den !== 1;
      let symbols = '';
      for (; said < chords.length && compare(chords[said]!.onset, event.onset) <= 0; said++) {
        symbols += `"${movedChordText(chords[said]!.text, work.by)}"`;
      }
      return (i === 0 || inGroup ? '' : ' ') + symbols + lengths[i]!.tuplet + eventText(event, lengths[i]!.texts, spell, work.by);
    })
    .join('');
}

/** One note or rest; a length that no single note has is tied together from several. */
function eventText(event: LineEvent, texts: readonly string[], spell: (pitch: SpelledPitch) => string, by: Interval): string {
  if (event.kind === 'rest') return texts.map((length) => `z${length}`).join('');
  const pitch = bassPitch(event, by);
  const notes = texts.map((length) => spell(pitch) + length).join('-');
  return (event.slur === 'first' ? '(' : '') + notes + (event.tied ? '-' : '') + (event.slur === 'second' ? ')' : '');
}

/** The written pitch, an octave above the sounding one, spelled as the source spells it. */
function bassPitch(event: Extract<LineEvent, { kind: 'tone' }>, by: Interval): SpelledPitch {
  const moved = movedPitch(event.spelled, by);
  const written = event.sounding + 12;
  const octave = (written - naturals[moved.letter] - moved.alter) / 12 - 1;
  return Number.isInteger(octave) ? { ...moved, octave } : plainPitch(written);
}

/** Writes pitches with the accidentals they need after the ones before in the bar, by either rule of how far an accidental carries. */
function speller(key: KeyValue): (pitch: SpelledPitch) => string {
  const signature = signatureOf(key);
  const byLetter = new Map<string, number>();
  const byOctave = new Map<string, number>();
  return ({ letter, alter, octave }) => {
    const plain = signature[letters.indexOf(letter)] ?? 0;
    const place = letter + octave;
    const needed = (byLetter.get(letter) ?? plain) !== alter || (byOctave.get(place) ?? plain) !== alter;
    byLetter.set(letter, alter);
    byOctave.set(place, alter);
    return (needed ? (accidentalFor(alter) ?? '') : '') + pitchText(letter, octave);
  };
}
