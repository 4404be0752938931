// Notes that the instrument does not have: shared by the three codes on range.
import type { PlanStage } from '../../arrangement/types.ts';
import type { LimitCode } from '../../fingering/types.ts';
import type { Check, Fix } from '../check.ts';
import { octaveEdit, pitchName } from './pitch.ts';
import { type Passage, windowCheck } from './windows.ts';

/** What a message about range may say: sounding pitch of the note, of the lowest string and of the highest stop in use. */
export interface RangeFacts {
  readonly note: string;
  readonly lowest: string;
  readonly highest: string;
  readonly top: number;
}

/** A check on notes out of range; `octave` is the way back. */
export const outOfRange = (code: LimitCode, octave: 1 | -1, say: (facts: RangeFacts) => string): Check<'plan'> =>
  windowCheck(code, (passage, stage) => ({ message: say(factsOf(passage, octave)), fixes: moved(passage, stage, octave) }));

function factsOf(passage: Passage, octave: 1 | -1): RangeFacts {
  const { tuning, top } = passage.part.setup;
  const sounding = passage.notes.flatMap((note) => note.sounding);
  const highest = Math.max(...tuning.strings.map((string) => string.open)) + top;
  const lowest = Math.min(...tuning.strings.map((string) => string.open + string.lowestStop));
  const worst = octave === 1 ? Math.min(...sounding) : Math.max(...sounding);
  return { note: pitchName(worst), lowest: pitchName(lowest), highest: pitchName(highest), top };
}

function moved(passage: Passage, stage: PlanStage, octave: 1 | -1): readonly Fix[] {
  const [note, ...others] = passage.notes;
  const head = note?.note.heads[0];
  if (note === undefined || head === undefined || others.length > 0 || note.note.heads.length > 1) return [];
  const heads = [note.id, ...note.tied].flatMap((id) =>
    stage.score.voices.flatMap((voice) => voice.notes.find((n) => n.id === id)?.heads ?? []),
  );
  const edits = heads.flatMap((each) => octaveEdit(stage.text, each, octave) ?? []);
  if (edits.length !== heads.length) return [];
  return [{ title: `Play it an octave ${octave === 1 ? 'higher' : 'lower'}`, edits }];
}
