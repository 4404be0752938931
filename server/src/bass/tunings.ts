// Tunings by name, and tunings from pitches. Sources: handbooks named beside each check in tests/outside/bass; drop D is common practice.
import type { StringSpec, Tuning } from './types.ts';

const semitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const mostStrings = 6;

/** Strings from the highest to the lowest, each as `[name, open MIDI, lowest stop]`. */
const named: Readonly<Record<string, readonly (readonly [string, number, number])[]>> = {
  standard: strings('G2 D2 A1 E1'),
  solo: strings('A2 E2 B1 F#1'),
  fifths: strings('A2 D2 G1 C1'),
  'five-low-b': strings('G2 D2 A1 E1 B0'),
  'five-low-c': strings('G2 D2 A1 E1 C1'),
  'five-high-c': strings('C3 G2 D2 A1 E1'),
  'c-extension': strings('G2 D2 A1 E1').map(([name, open]) => [name, open, name === 'E' ? -4 : 0] as const),
  'drop-d': strings('G2 D2 A1 D1'),
};

/** Names that `tuningNamed` knows. */
export const tuningNames: readonly string[] = Object.keys(named);

/** The tuning of that name, or null. */
export function tuningNamed(name: string): Tuning | null {
  const entry = Object.hasOwn(named, name) ? named[name] : undefined;
  return entry ? { name, strings: distinct(entry.map(([string, open, lowestStop]) => ({ name: string, open, lowestStop }))) } : null;
}

/** A tuning from two to six sounding pitches in scientific notation, in any order (`E1 A1 D2 G2`), or null if one cannot be read or two are equal. */
export function tuningOf(pitches: string): Tuning | null {
  const words = pitches.trim().split(/[\s,]+/);
  const read = words.map(readPitch);
  if (words.length < 2 || words.length > mostStrings || read.some((one) => one === null)) return null;
  const specs = read
    .filter((one) => one !== null)
    .sort((a, b) => b.open - a.open)
    .map((one) => ({ ...one, lowestStop: 0 }));
  if (new Set(specs.map((one) => one.open)).size < specs.length) return null;
  return { name: [...words].join(' '), strings: distinct(specs) };
}

function readPitch(word: string): { name: string; open: number } | null {
  const match = /^([A-Ga-g])(##?|bb?)?(\d)$/.exec(word);
  if (!match) return null;
  const letter = match[1]!.toUpperCase();
  const accidental = match[2] ?? '';
  const alter = accidental.startsWith('#') ? accidental.length : -accidental.length;
  return { name: letter + accidental, open: semitones[letter]! + alter + 12 * (Number(match[3]) + 1) };
}

function strings(text: string): readonly (readonly [string, number, number])[] {
  return text.split(' ').map((word) => {
    const pitch = readPitch(word)!;
    return [pitch.name, pitch.open, 0] as const;
  });
}

/** Two strings of one letter are told apart by a number from the second on (`D`, `D2` in drop D). */
function distinct(specs: readonly StringSpec[]): readonly StringSpec[] {
  return specs.map((spec, i) => {
    const before = specs.slice(0, i).filter((other) => other.name === spec.name).length;
    return before === 0 ? spec : { ...spec, name: `${spec.name}${before + 1}` };
  });
}
