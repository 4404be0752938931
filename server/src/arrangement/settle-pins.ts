// After a tune has moved: pins that no hand can follow any more are taken out and told.
import { unpinEdits } from './pin-edits.ts';
import { keepingSymbolPlaces } from './symbol-places.ts';
import type { PinFate, Transposition } from './transpose.ts';
import type { FingeredPart, PlanStage } from './types.ts';

/** Takes out the pins of passages that are unplayable, where pins are in them; nothing where all is playable. */
export function settlePins(stage: PlanStage): Transposition {
  const settled = stage.fingered.filter(({ plan }) => !plan.playable).map(settlePart);
  const edits = settled.flatMap((one) => one.edits).sort((a, b) => a.span.from - b.span.from);
  return { edits: keepingSymbolPlaces(stage.tree, edits), pins: settled.flatMap((one) => one.pins) };
}

function settlePart({ part, plan }: FingeredPart): Transposition {
  const inside = new Map(plan.windows.flatMap((window) => window.notes.map((id) => [id, window] as const)));
  const freed = part.notes.flatMap((note) => {
    const window = inside.get(note.id);
    const edits = window === undefined ? [] : unpinEdits(note);
    return edits.length === 0 ? [] : [{ note, edits, code: window!.code }];
  });
  return {
    edits: freed.flatMap((one) => one.edits),
    pins: freed.map(
      ({ note, edits, code }): PinFate => ({
        ...edits[0]!.span,
        note: note.id,
        fate: 'lost',
        message: `The pins of this note are lost: no hand follows them in the new key (${code}).`,
      }),
    ),
  };
}
