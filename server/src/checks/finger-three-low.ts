// finger.three-low: the third finger asked for alone low on the neck, where the closed hand supports 4 with it.
import type { FingeredPart, PlanNote } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';
import { fingersLetGo } from './shared/remedies.ts';

export const fingerThreeLow: Check<'plan'> = {
  codes: ['finger.three-low'],
  needs: 'plan',
  severity: 'info',
  find: (stage) => stage.fingered.flatMap(findingsIn),
};

/** Place of finger 1 from which 3 is used on the neck: VI position, where it takes the octave (Simandl, New Method, book 1). */
const closedFrom = 10;
/** The open hand sets a finger a semitone from the fourth above the open string on (Sperger's practice). */
const openFrom = 5;

function findingsIn({ part, plan }: FingeredPart): readonly Finding[] {
  if (part.setup.school === 'one-three-four') return [];
  const from = part.setup.school === 'open' ? openFrom : closedFrom;
  return part.notes.flatMap((note, i) => {
    const planned = plan.notes[i];
    if (planned === undefined || !isLowThree(planned, from)) return [];
    const message = `The third finger stands alone here at stop ${planned.places[0]?.stop}. Below hand stop ${from} the closed hand takes 1, 2 and 4, and 3 only supports 4. Take 2 or 4, or name your school (school=one-three-four).`;
    return finding('finger.three-low', 'info', note.note, message, { fixes: fingersLetGo([note]) });
  });
}

const isLowThree = ({ pinned, places, hand }: PlanNote, from: number): boolean =>
  pinned.includes('finger') &&
  hand !== null &&
  hand.frame !== 'thumb' &&
  hand.stop < from &&
  places.some((place) => place.finger === '3' && !place.harmonic);
