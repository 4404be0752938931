// Moving spelled pitches and keys by an interval that is the same for all of them, so that moving back restores them.
import type { KeyValue } from '../abc/tree/fields.ts';
import type { Letter } from '../abc/tree/items.ts';
import { fifthsOf } from '../score/index.ts';
import { letters, naturals } from './pitch-text.ts';

/** Steps of the scale of letters (7 an octave) and semitones, both signed. */
export interface Interval {
  readonly steps: number;
  readonly semitones: number;
}

export interface SpelledPitch {
  readonly letter: Letter;
  /** Semitones off the natural. */
  readonly alter: number;
  /** Scientific octave. */
  readonly octave: number;
}

export const midiOf = ({ letter, alter, octave }: SpelledPitch): number => 12 * (octave + 1) + naturals[letter] + alter;

/** The interval of `semitones` that takes a key to the key with the fewest sharps or flats; sharps stay sharps where both are as many. */
export function intervalFor(key: KeyValue, semitones: number): Interval {
  const tonic = key.tonic ?? { letter: 'C' as const, alter: 0 as const };
  const goal = naturals[tonic.letter] + tonic.alter + semitones;
  const sharp = fifthsOf({ ...key, tonic }) >= 0;
  const options = letters.flatMap((letter, index) =>
    ([-1, 0, 1] as const).flatMap((alter) => {
      const octaves = (goal - naturals[letter] - alter) / 12;
      if (!Number.isInteger(octaves)) return [];
      const fifths = fifthsOf({ ...key, tonic: { letter, alter } });
      return [{ steps: index - letters.indexOf(tonic.letter) + 7 * octaves, fifths }];
    }),
  );
  const rank = (fifths: number): number => 2 * Math.abs(fifths) + (fifths >= 0 === sharp ? 0 : 1);
  const best = options.reduce((a, b) => (rank(b.fifths) < rank(a.fifths) ? b : a));
  return { steps: best.steps, semitones };
}

/** The pitch an interval away; beyond double sharps and flats it is spelled with the nearest letter instead. */
export function movedPitch(pitch: SpelledPitch, { steps, semitones }: Interval): SpelledPitch {
  const step = letters.indexOf(pitch.letter) + 7 * pitch.octave + steps;
  const octave = Math.floor(step / 7);
  const letter = letters[step - 7 * octave]!;
  const goal = midiOf(pitch) + semitones;
  const alter = goal - midiOf({ letter, alter: 0, octave });
  return Math.abs(alter) <= 2 ? { letter, alter, octave } : plainPitch(goal);
}

/** A pitch spelled with sharps at most. */
export function plainPitch(midi: number): SpelledPitch {
  const octave = Math.floor(midi / 12) - 1;
  const above = midi - 12 * (octave + 1);
  const letter = letters.findLast((one) => naturals[one] <= above)!;
  return { letter, alter: above - naturals[letter], octave };
}

const signs: Readonly<Record<string, number>> = { __: -2, _: -1, '=': 0, '^': 1, '^^': 2, '#': 1, b: -1, '': 0 };
const sharpsAndFlats = (alter: number): string => (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));

/** The text of a `K:` field moved by an interval; a key without a tonic stays as it is. */
export function movedKeyText(text: string, key: KeyValue, by: Interval): string {
  if (key.tonic === null) return text;
  const tonic = movedPitch({ ...key.tonic, octave: 4 }, by);
  const head = /^[A-G][#b]?/.exec(text)?.[0] ?? '';
  const rest = text
    .slice(head.length)
    .replace(/(^|[\s^_=])(\^\^|\^|__|_|=)([A-Ga-g])(?=[\s^_=]|$)/g, (_, before: string, sign: string, name: string) => {
      const moved = movedPitch({ letter: name.toUpperCase() as Letter, alter: signs[sign] ?? 0, octave: 4 }, by);
      const letter = name === name.toUpperCase() ? moved.letter : moved.letter.toLowerCase();
      return `${before}${accidentalSigns[moved.alter + 2]}${letter}`;
    });
  return tonic.letter + sharpsAndFlats(tonic.alter) + rest;
}

const accidentalSigns = ['__', '_', '=', '^', '^^'] as const;

/** A chord symbol's text with root and bass moved; what begins with no root stays. */
export function movedChordText(text: string, by: Interval): string {
  return text.replace(/(^|\/)([A-G])(#|b)?/g, (_, before: string, letter: string, sign: string | undefined) => {
    const moved = movedPitch({ letter: letter as Letter, alter: signs[sign ?? ''] ?? 0, octave: 4 }, by);
    const named = Math.abs(moved.alter) <= 1 ? moved : plainPitch(midiOf(moved));
    return before + named.letter + sharpsAndFlats(named.alter);
  });
}
