// The text of a note given by string and stop, as it is to be written at a place of a bass part: for entering notes from a picture of the strings.
import type { Letter } from '../abc/tree/items.ts';
import type { BassPart, PartStage } from '../arrangement/types.ts';
import { fraction } from '../score/fraction.ts';
import { signatureOf } from '../score/index.ts';
import type { Bar, Voice } from '../score/types.ts';
import type { Offset } from '../text/span.ts';
import type { Feature } from './feature.ts';

export interface EnteredNote {
  readonly at: Offset;
  readonly string: string;
  /** Semitones above the open string. */
  readonly stop: number;
}

/** The text to insert, one unit note length long, its string pinned; null where no bass part is, or the string is not on the bass. */
export const enterNote: Feature<'part', EnteredNote, string | null> = {
  needs: 'part',
  answer(stage, { at, string, stop }) {
    const part = partAt(stage, at);
    const voice = stage.score.voices.find((one) => one.id === part?.voice);
    const open = part?.setup.tuning.strings.find((one) => one.name === string)?.open;
    if (voice === undefined || open === undefined) return null;
    const bar = voice.bars.findLast((one) => one.from <= at) ?? voice.bars[0];
    // Basses are written an octave above what they sound; `octave=` has moved the letters besides.
    const pitch = spelled(open + stop + 12, bar === undefined ? stage.score.key : bar.key);
    const octave = pitch.octave - (voice.properties.octave ?? 0);
    return `!sul${string}!${accidentalText(pitch, voice, bar, at)}${letterText(pitch.letter, octave)}`;
  },
};

/** The bass part whose note lies nearest before the place, else the first. */
function partAt(stage: PartStage, at: Offset): BassPart | null {
  const parts = stage.parts.filter((part) => part.kind === 'bass');
  const lastBefore = (part: BassPart): number => part.notes.findLast((note) => note.note.from <= at)?.note.from ?? -1;
  return parts.reduce<BassPart | null>((best, part) => (best === null || lastBefore(part) > lastBefore(best) ? part : best), null);
}

interface Pitch {
  readonly letter: Letter;
  readonly alter: number;
  readonly octave: number;
  /** What the key makes of the letter. */
  readonly inKey: number;
}

const letters: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const naturals = [0, 2, 4, 5, 7, 9, 11];

/** A note of the key where there is one, else a natural, else a sharp in sharp keys and a flat in flat ones (common practice). */
function spelled(midi: number, key: Bar['key']): Pitch {
  const signature = signatureOf(key);
  const side = signature.reduce((sum, alter) => sum + alter, 0) < 0 ? -1 : 1;
  const candidates = letters.flatMap((letter, i) =>
    [-1, 0, 1].map((alter) => ({ letter, alter, inKey: signature[i]!, natural: naturals[i]! })),
  );
  const fitting = candidates.filter(({ natural, alter }) => (midi - natural - alter) % 12 === 0);
  const rank = (one: (typeof candidates)[number]): number =>
    one.alter === one.inKey ? 0 : one.alter === 0 ? 1 : one.alter === side ? 2 : 3;
  const best = fitting.reduce((a, b) => (rank(b) < rank(a) ? b : a));
  return { letter: best.letter, alter: best.alter, inKey: best.inKey, octave: fraction(midi - best.natural - best.alter, 12).num - 1 };
}

/** An accidental where the key says otherwise, or where one on this letter came before in the bar. */
function accidentalText(pitch: Pitch, voice: Voice, bar: Bar | undefined, at: Offset): string {
  const before = voice.notes.filter((note) => note.bar === bar?.index && note.to <= at).flatMap((note) => note.heads);
  const changed = before.some((head) => head.letter === pitch.letter && head.accidental !== null);
  if (!changed && pitch.alter === pitch.inKey) return '';
  return pitch.alter === 0 ? '=' : pitch.alter > 0 ? '^' : '_';
}

const letterText = (letter: Letter, octave: number): string =>
  octave >= 5 ? letter.toLowerCase() + "'".repeat(octave - 5) : letter + ','.repeat(4 - octave);
