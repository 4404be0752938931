// Pitch names for players, and writing a head an octave away.
import type { Head } from '../../score/types.ts';
import type { Edit } from '../../text/span.ts';

const sharpNames = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'A♭', 'A', 'B♭', 'B'];

/** A sounding pitch by name and octave: 28 is `E1`, the lowest open string. */
export const pitchName = (midi: number): string => `${sharpNames[((midi % 12) + 12) % 12]}${Math.floor(midi / 12) - 1}`;

const alterSigns: Readonly<Record<string, string>> = { '-2': '𝄫', '-1': '♭', '0': '', '1': '♯', '2': '𝄪' };

/** A head as the text spells it: letter and accidental, without an octave. */
export const spelled = (head: Head): string => `${head.letter}${alterSigns[head.alter] ?? ''}`;

/** The edit that moves a single written note by an octave; `text` is the tune's. null where the note is not written plainly. */
export function octaveEdit(text: string, head: Head, octaves: 1 | -1): Edit | null {
  const written = /^([_=^]*)([A-Ga-g])([,']*)/.exec(text.slice(head.from, head.to));
  if (written === null) return null;
  const [all, accidental, letter, marks] = written as unknown as [string, string, string, string];
  const octave = (letter === letter.toLowerCase() ? 1 : 0) + [...marks].reduce((sum, mark) => sum + (mark === "'" ? 1 : -1), 0) + octaves;
  return { span: { from: head.from, to: head.from + all.length }, insert: accidental + lettered(letter, octave) };
}

/** A letter with its octave marks; octave 0 is the one from middle C up, written in capitals. */
function lettered(letter: string, octave: number): string {
  return octave > 0 ? letter.toLowerCase() + "'".repeat(octave - 1) : letter.toUpperCase() + ','.repeat(-octave);
}
