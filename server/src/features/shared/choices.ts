// The places a note can be played at, easiest first, each with what it costs and what follows from it.
import type { Alternative } from '../../fingering/types.ts';
import { costWords, handWords, namedPlace, placeWords } from './places.ts';
import { handBefore, nextStopped, type PlannedNote, plannedNote, sameHand } from './plan-notes.ts';

export interface PlaceChoice {
  /** One a head. */
  readonly places: readonly ReturnType<typeof namedPlace>[];
  /** Milli-units over the best; 0 for what is computed now. */
  readonly regret: number;
  readonly cost: string;
  readonly effect: string;
}

/** Most places offered at one note. */
const mostChoices = 12;

/** Pins of the note itself do not narrow the choice. None where the passage has no place for the note even without them. */
export function placeChoices(planned: PlannedNote): readonly PlaceChoice[] {
  const note = freely(planned);
  const { fingered, index } = note;
  if (fingered.result.kind === 'unplayable') return [];
  const { tuning } = fingered.part.setup;
  return fingered.result.alternatives(index, mostChoices).map((alternative) => ({
    places: alternative.places.map((place) => namedPlace(place, tuning)),
    regret: alternative.regret,
    cost: costWords(alternative.regret),
    effect: effectWords(note, alternative),
  }));
}

/** The note as if it had no pins; as it is where it has none and is playable. */
function freely(planned: PlannedNote): PlannedNote {
  const { fingered, index, note } = planned;
  const pinned = note.pins.some((pin) => pin.finger !== null || pin.string !== null || pin.harmonic !== null);
  if (!pinned) return planned;
  return plannedNote(fingered.freed(index), index) ?? planned;
}

function effectWords(note: PlannedNote, alternative: Alternative): string {
  return [comingWords(note, alternative), goingWords(note, alternative)].filter((words) => words !== '').join(' ');
}

function comingWords({ fingered, index }: PlannedNote, { hand }: Alternative): string {
  const before = handBefore(fingered, index);
  if (hand === null) return 'The hand is free.';
  if (before === null) return `The hand begins in ${handWords(hand)}.`;
  return sameHand(before, hand)
    ? `The hand stays in ${handWords(hand)}.`
    : `The hand goes from ${handWords(before)} to ${handWords(hand)}.`;
}

function goingWords({ fingered, index }: PlannedNote, { hand }: Alternative): string {
  const next = nextStopped(fingered, index);
  const place = next?.plan.places.find((one) => one.finger !== '0');
  if (!next?.plan.hand || place === undefined) return '';
  const how = hand === null || sameHand(hand, next.plan.hand) ? 'without a shift' : `by a shift to ${handWords(next.plan.hand)}`;
  return `Next: ${placeWords(place)}, ${how}.`;
}
