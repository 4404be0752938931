// All actions, in the order in which they are offered.
import { accents } from './accents.ts';
import type { Action } from './action.ts';
import { arrangeVersions } from './arrange.ts';
import { changeLength } from './change-length.ts';
import { ink } from './ink.ts';
import { moveOctave } from './move-octave.ts';
import { moveString } from './move-string.ts';
import { pinNotes } from './pin-notes.ts';
import { slurNotes } from './slur-notes.ts';
import { suggestedChords } from './suggest-chords.ts';
import { transpose } from './transpose.ts';

export type { Action, Offer } from './action.ts';
export type AnyAction = Action<'tree'> | Action<'score'> | Action<'part'> | Action<'plan'>;

export const actions: readonly AnyAction[] = [
  arrangeVersions,
  suggestedChords,
  pinNotes,
  moveString,
  moveOctave,
  slurNotes,
  changeLength,
  ink,
  accents,
  transpose,
];
