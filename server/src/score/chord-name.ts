// Chord symbols read: root, bass note, and the tones of the chord.
import type { Letter } from '../abc/tree/items.ts';

/** A pitch without its octave; `alter` in semitones. */
export interface NamedPitch {
  readonly letter: Letter;
  readonly alter: number;
}

export interface ChordName {
  readonly root: NamedPitch;
  /** The bass note: the root, or what stands after a stroke. */
  readonly bass: NamedPitch;
  /** Semitones from the root to the chord's fifth: 7, in a diminished chord 6, in an augmented one 8. */
  readonly fifth: 6 | 7 | 8;
  readonly minor: boolean;
  /** Semitones above the root, ascending from 0: triad, and sixth or seventh if named. Ninths and higher are left to the players. */
  readonly tones: readonly number[];
}

/** What may follow a root, so that a word ("Fine", "Break") is not read as a chord (the standard: type, then an optional bass note). */
const quality = /^(?:maj|min|dim|aug|sus|add|alt|m|M|[-+°øo^#b\d(),])*$/;

/** A chord symbol read; `none` where it says that no chord sounds; null for other words. */
export function readChordName(text: string): ChordName | 'none' | null {
  if (/^\(?N\.? ?C\.?\)?$/i.test(text.trim())) return 'none';
  const match = /^\(?([A-G])([#b]?)([^/]*?)(?:\/([A-Ga-g])([#b]?))?\)?$/.exec(text.trim());
  if (match === null || !quality.test(match[3]!)) return null;
  const root = namedPitch(match[1]!, match[2]!);
  const bass = match[4] === undefined ? root : namedPitch(match[4].toUpperCase(), match[5] ?? '');
  const kind = match[3]!;
  const fifth = fifthOf(kind);
  const tones = [0, ...thirdOf(kind), fifth, ...addedOf(kind)];
  return { root, bass, fifth, minor: /^(?:m(?!aj)|-)/.test(kind), tones };
}

const namedPitch = (letter: string, sign: string): NamedPitch => ({
  letter: letter as Letter,
  alter: sign === '#' ? 1 : sign === 'b' ? -1 : 0,
});

const fifthOf = (kind: string): ChordName['fifth'] => (/dim|°|ø|^o|b5|-5/.test(kind) ? 6 : /aug|^\+|#5|\+5/.test(kind) ? 8 : 7);

/** The third, or what a suspension puts in its place; none in a power chord. */
function thirdOf(kind: string): readonly number[] {
  if (kind === '5') return [];
  if (/sus2/.test(kind)) return [2];
  if (/sus/.test(kind)) return [5];
  return [/^(?:m(?!aj)|-|dim|°|ø|o)/.test(kind) ? 3 : 4];
}

/** The sixth or seventh: a plain 9, 11 or 13 has a minor seventh below it, an added one has none. */
function addedOf(kind: string): readonly number[] {
  const plain = kind.replace(/add#?b?\d+|[#b+-]5|sus\d?/g, '');
  if (/ø/.test(plain)) return [10];
  if (/6/.test(plain)) return [9];
  if (!/7|9|11|13/.test(plain)) return [];
  if (/maj|M|\^/.test(plain)) return [11];
  return [/^(?:dim|°|o)/.test(plain) ? 9 : 10];
}
