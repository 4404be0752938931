// The notes around the caret that are played without moving the hand.
import type { Offset } from '../text/span.ts';
import type { Feature } from './feature.ts';
import type { Highlight } from './highlights.ts';
import { plannedNoteAt, sameHand } from './shared/plan-notes.ts';

/** The question is an offset. Open strings between notes of the same hand belong to it. */
export const handHighlights: Feature<'plan', Offset, readonly Highlight[]> = {
  needs: 'plan',
  answer(stage, at) {
    const found = plannedNoteAt(stage, at);
    if (found === null || found.plan.hand === null) return [];
    const { notes } = found.fingered.plan;
    const stays = (i: number): boolean =>
      notes[i] !== undefined && notes[i].places.length > 0 && (notes[i].hand === null || sameHand(notes[i].hand, found.plan.hand));
    let first = found.index;
    let last = found.index;
    while (stays(first - 1)) first--;
    while (stays(last + 1)) last++;
    return notes.slice(first, last + 1).map(({ from, to }) => ({ kind: 'hand', from, to }));
  },
};
