// finger.four-high: the fourth finger asked for at the octave or above, where it is too short: 3 takes its place.
import type { FingeredPart, PlanNote } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';
import { fingersLetGo } from './shared/remedies.ts';

export const fingerFourHigh: Check<'plan'> = {
  codes: ['finger.four-high'],
  needs: 'plan',
  severity: 'info',
  find: (stage) => stage.fingered.flatMap(findingsIn),
};

/** Lowest stop at which printed fingerings no longer use 4: stop 11 is the last (method books and player-fingered parts). */
const tooHigh = 12;

function findingsIn({ part, plan }: FingeredPart): readonly Finding[] {
  return part.notes.flatMap((note, i) => {
    const here = plan.notes[i];
    const high = here?.places.find((place) => place.finger === '4' && place.stop >= tooHigh);
    if (
      here === undefined ||
      high === undefined ||
      !here.pinned.includes('finger') ||
      isOctaveShape(here, plan.notes[i - 1], plan.notes[i + 1])
    )
      return [];
    const message = `The fourth finger is asked for at stop ${high.stop}. It is too short there: from the octave up the third finger plays the top of the hand, and thumb position follows. Take 3.`;
    return finding('finger.four-high', 'info', note.note, message, { fixes: fingersLetGo([note]) });
  });
}

/** An octave under 1 and 4 across two strings reaches stop 13 in print: the neighbour lies in the same hand on another string. */
const isOctaveShape = (here: PlanNote, ...neighbours: readonly (PlanNote | undefined)[]): boolean =>
  neighbours.some(
    (other) =>
      other !== undefined &&
      other.hand?.stop === here.hand?.stop &&
      other.places[0]?.finger === '1' &&
      other.places[0].string !== here.places[0]?.string,
  );
