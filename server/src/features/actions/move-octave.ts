// Moves the selected notes an octave up or down.
import { octaveEdits } from '../../arrangement/index.ts';
import type { Action } from './action.ts';
import { notesWords, selectedNotes, spanOfNotes } from './selected.ts';

export const moveOctave: Action<'score'> = {
  id: 'move-octave',
  needs: 'score',
  offers(stage, selection) {
    const { length } = selectedNotes(stage.score, selection);
    if (length === 0) return [];
    return [
      { variant: 'down', title: `Move ${notesWords(length)} an octave down` },
      { variant: 'up', title: `Move ${notesWords(length)} an octave up` },
    ];
  },
  edits(stage, selection, variant) {
    const span = spanOfNotes(selectedNotes(stage.score, selection));
    return span === null ? [] : octaveEdits(stage, span, variant === 'up' ? 1 : -1);
  },
};
