// What a note is: written and sounding pitch, why it is sharp or flat, where in the bar it falls.

import { clefAt, soundingPitch } from '../arrangement/index.ts';
import type { PartStage } from '../arrangement/types.ts';
import { barNumber } from '../score/bar-numbers.ts';
import type { Head, ScoreNote, Voice } from '../score/types.ts';
import type { Feature } from './feature.ts';
import type { Hover } from './hover.ts';
import { beatsInto, beatWords } from './shared/beats.ts';
import { scoreNoteAt } from './shared/notes.ts';
import { alterationName, pitchName } from './shared/pitch.ts';

/** The question is an offset. Answers while the fingering is being computed. */
export const pitchHover: Feature<'part', number, Hover | null> = {
  needs: 'part',
  answer(stage, at) {
    const found = scoreNoteAt(stage.score, at);
    if (found === null) return null;
    const { voice, note } = found;
    return { from: note.from, to: note.to, text: [pitchLine(stage, voice, note), placeLine(voice, note)] };
  },
};

function pitchLine(stage: PartStage, voice: Voice, note: ScoreNote): string {
  const bass = stage.parts.find((part) => part.voice === voice.id)?.kind === 'bass';
  return note.heads
    .map((head) => {
      const sounds = bass ? soundingPitch(head, clefAt(voice, note.onset)) : head.midi;
      const why = reasonOfAlteration(voice, note, head);
      return `**${pitchName(head, head.written)}**, sounds ${pitchName(head, sounds)}${why === '' ? '' : ` (${why})`}`;
    })
    .join('; ');
}

/** Why a head is not natural, or natural against the key; empty where nothing needs saying. */
function reasonOfAlteration(voice: Voice, note: ScoreNote, head: Head): string {
  if (head.accidental !== null) return '';
  const what = alterationName(head.alter) || 'natural';
  if (head.tied) return head.alter === 0 ? '' : `${what} by the tie`;
  const earlier = voice.notes.some(
    (other) =>
      other.bar === note.bar &&
      other.id < note.id &&
      other.heads.some((one) => one.letter === head.letter && one.accidental !== null && one.alter === head.alter),
  );
  if (earlier) return `${what} by the accidental before it in this bar`;
  return head.alter === 0 ? '' : `${what} by the key`;
}

function placeLine(voice: Voice, note: ScoreNote): string {
  const bar = voice.bars[note.bar];
  if (bar === undefined) return '';
  const beats = beatsInto(bar, note.onset, bar.index === 0);
  const where = [
    `bar ${barNumber(voice, bar.index)}`,
    beats === null ? '' : beatWords(beats),
    bar.part === null ? '' : `part ${bar.part.replace(/[^\w -]/g, '')}`,
  ];
  const words = where.filter((word) => word !== '').join(', ');
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}
