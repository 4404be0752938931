// Pins what is computed for the selected notes, or takes their pins out.
import { keepingSymbolPlaces, pinEdits, unpinEdits } from '../../arrangement/index.ts';
import type { PlanStage } from '../../arrangement/types.ts';
import type { Edit, Span } from '../../text/span.ts';
import { inOrder } from '../shared/edits.ts';
import { type PlannedNote, plannedNote } from '../shared/plan-notes.ts';
import type { Action } from './action.ts';
import { notesWords, selectedIndices } from './selected.ts';

export const pinNotes: Action<'plan'> = {
  id: 'pin-notes',
  needs: 'plan',
  offers(stage, selection) {
    const notes = selectedPlans(stage, selection);
    const pin = notes.flatMap(pinned).length > 0 ? [{ variant: 'pin', title: `Pin the fingering of ${notesWords(notes.length)}` }] : [];
    const unpin = notes.flatMap(unpinned).length > 0 ? [{ variant: 'unpin', title: `Take the pins off ${notesWords(notes.length)}` }] : [];
    return [...pin, ...unpin];
  },
  edits: (stage, selection, variant) =>
    inOrder(keepingSymbolPlaces(stage.tree, selectedPlans(stage, selection).flatMap(variant === 'pin' ? pinned : unpinned))),
};

const selectedPlans = (stage: PlanStage, selection: Span): readonly PlannedNote[] =>
  stage.fingered.flatMap((fingered) => selectedIndices(fingered, selection).flatMap((i) => plannedNote(fingered, i) ?? []));

const pinned = ({ note, plan }: PlannedNote): readonly Edit[] => plan.places.flatMap((place, head) => pinEdits(note, head, place));
const unpinned = ({ note }: PlannedNote): readonly Edit[] => unpinEdits(note);
