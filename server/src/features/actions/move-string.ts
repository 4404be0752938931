// Plays the selected notes on another string: pins the string and takes out fingers that belonged to the old one.
import { keepingSymbolPlaces, unpinEdits } from '../../arrangement/index.ts';
import type { FingeredPart, PartNote, PlanStage } from '../../arrangement/types.ts';
import type { StringSpec } from '../../bass/types.ts';
import type { Edit, Span } from '../../text/span.ts';
import { inOrder } from '../shared/edits.ts';
import type { Action } from './action.ts';
import { notesWords, selectedIndices } from './selected.ts';

export const moveString: Action<'plan'> = {
  id: 'move-string',
  needs: 'plan',
  offers(stage, selection) {
    return selectedParts(stage, selection).flatMap(({ fingered, notes }) =>
      fingered.part.setup.tuning.strings
        .filter((string) => notes.every((note) => isOn(string, note, fingered)) && !isPlayedThere(string, notes, fingered))
        .map((string) => ({ variant: string.name, title: `Play ${notesWords(notes.length)} on the ${string.name} string` })),
    );
  },
  edits(stage, selection, variant) {
    return inOrder(
      keepingSymbolPlaces(
        stage.tree,
        selectedParts(stage, selection).flatMap(({ notes }) => notes.flatMap((note) => pinString(note, variant))),
      ),
    );
  },
};

/** Double stops lie on two strings and are left alone. */
function selectedParts(
  stage: PlanStage,
  selection: Span,
): readonly { readonly fingered: FingeredPart; readonly notes: readonly PartNote[] }[] {
  return stage.fingered
    .map((fingered) => ({ fingered, notes: selectedIndices(fingered, selection).flatMap((i) => fingered.part.notes[i] ?? []) }))
    .filter(({ notes }) => notes.length > 0 && notes.every((note) => note.sounding.length === 1));
}

function isOn(string: StringSpec, note: PartNote, { part }: FingeredPart): boolean {
  const stop = (note.sounding[0] ?? 0) - string.open;
  return stop >= string.lowestStop && stop <= part.setup.top;
}

function isPlayedThere(string: StringSpec, notes: readonly PartNote[], { plan }: FingeredPart): boolean {
  const places = new Map(plan.notes.map((note) => [note.id, note.places[0]?.string]));
  return notes.every((note) => places.get(note.id) === string.name && note.pins[0]?.string?.value === string.name);
}

function pinString(note: PartNote, name: string): readonly Edit[] {
  const at = note.note.from;
  return [...unpinEdits(note), { span: { from: at, to: at }, insert: `!sul${name}!` }];
}
