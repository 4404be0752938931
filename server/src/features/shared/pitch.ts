// Names of pitches as players write them: F♯2.
import type { Head } from '../../score/types.ts';

const signs: Readonly<Record<number, string>> = { [-2]: '𝄫', [-1]: '♭', 0: '', 1: '♯', 2: '𝄪' };
const naturals: Readonly<Record<Head['letter'], number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const sharpNames = ['C', 'C♯', 'D', 'D♯', 'E', 'F', 'F♯', 'G', 'G♯', 'A', 'A♯', 'B'];

/** The name a head has at a given MIDI pitch (60 is C4), spelled as the head is where the pitch allows it. */
export function pitchName(head: Pick<Head, 'letter' | 'alter'>, midi: number): string {
  const natural = midi - head.alter - naturals[head.letter];
  if (natural % 12 !== 0) return midiName(midi);
  return `${head.letter}${signs[head.alter] ?? ''}${natural / 12 - 1}`;
}

/** The name of a MIDI pitch with sharps. */
export const midiName = (midi: number): string => `${sharpNames[((midi % 12) + 12) % 12]}${Math.floor(midi / 12) - 1}`;

/** `sharp`, `flat` and so on; empty for a natural. */
export function alterationName(alter: number): string {
  const names: Readonly<Record<number, string>> = { [-2]: 'double flat', [-1]: 'flat', 1: 'sharp', 2: 'double sharp' };
  return names[alter] ?? '';
}
