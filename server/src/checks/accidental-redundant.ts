// accidental.redundant: an accidental that says what the key or the bar has said already.
import type { ScoreStage } from '../arrangement/types.ts';
import { letterIndex, signatureOf } from '../score/index.ts';
import type { Head, ScoreNote, Voice } from '../score/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';

export const accidentalRedundant: Check<'score'> = {
  codes: ['accidental.redundant'],
  needs: 'score',
  severity: 'info',
  find: ({ score }: ScoreStage): readonly Finding[] => score.voices.flatMap(inVoice),
};

/** What was sounded of a letter lately: alteration in semitones, octave and bar. */
interface Heard {
  readonly alter: number;
  readonly octave: number;
  readonly bar: number;
}

function inVoice(voice: Voice): readonly Finding[] {
  // Where the tune says itself how far accidentals reach, a repeated one may be needed.
  if (voice.instructions.some(({ name }) => name === 'propagate-accidentals')) return [];
  const heard = new Map<number, readonly Heard[]>();
  const found: Finding[] = [];
  for (const note of voice.notes) {
    for (const head of note.heads) {
      const letter = letterIndex(head.letter);
      const before = heard.get(letter) ?? [];
      if (head.accidental !== null && isRedundant(voice, note, head, before)) found.push(said(head, head.accidental));
      const kept = before.filter(({ bar }) => bar >= note.bar - 1);
      heard.set(letter, [...kept, { alter: head.alter, octave: head.octave, bar: note.bar }]);
    }
  }
  return found;
}

/**
 * Whether nothing near asks for the accidental. One that takes back an alteration of this bar or of the bar before is a courtesy
 * (common practice), and one first heard in another octave of the bar is read differently by different programs.
 */
function isRedundant(voice: Voice, note: ScoreNote, head: Head, before: readonly Heard[]): boolean {
  if (before.some(({ alter, bar }) => bar >= note.bar - 1 && alter !== head.alter)) return false;
  const bar = voice.bars[note.bar];
  if (bar === undefined) return false;
  const signature = signatureOf(bar.key)[letterIndex(head.letter)] ?? 0;
  return signature === head.alter || before.some((one) => one.bar === note.bar && one.octave === head.octave);
}

function said(head: Head, accidental: string): Finding {
  const span = { from: head.from, to: head.from + accidental.length };
  const message =
    'This accidental changes nothing: the key or an earlier note of the bar has already said it. Take it out, unless it is a reminder for the player.';
  return {
    ...finding('accidental.redundant', 'info', span, message),
    fixes: [{ title: 'Take the accidental out', edits: [{ span, insert: '' }] }],
  };
}
