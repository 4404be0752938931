// What makes another place of a note dearer: the whole part fingered again with the note pinned there, and the difference told by the terms of the cost.
import { explainDifference, type TermCost } from '../fingering/index.ts';
import type { FingeredPart, HeadPin, PlanPlace } from './types.ts';

const nowhere = { from: 0, to: 0 };
const pinTo = ({ string, finger, harmonic }: WantedPlace): HeadPin => ({
  finger: harmonic ? null : { value: finger, span: nowhere },
  string: { value: string, span: nowhere, carried: false },
  harmonic: harmonic ? { span: nowhere } : null,
});

type WantedPlace = Pick<PlanPlace, 'string' | 'finger' | 'harmonic'>;

/**
 * Terms in milli-units, the greatest first, of what the part costs more with note `index` at `places` (one a head); their sum is that
 * cost. Empty where one of the two cannot be played. A search of its own.
 */
export function whyDearer({ part, task, result, again }: FingeredPart, index: number, places: readonly WantedPlace[]): readonly TermCost[] {
  if (result.kind === 'unplayable') return [];
  const notes = part.notes.map((note, i) => (i === index ? { ...note, pins: places.map(pinTo) } : note));
  const other = again({ ...part, notes }).result;
  return other.kind === 'unplayable' ? [] : explainDifference(task, result.placings, other.placings);
}
