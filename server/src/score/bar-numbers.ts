// The numbers that players give to bars: a pickup at the start is bar 0, the first full bar is bar 1.
import { compare } from './fraction.ts';
import type { Bar, Score, Voice } from './types.ts';

/** Whether a bar is the pickup of its voice: the first, and shorter than its meter asks for. */
export const isOpeningPickup = (bar: Bar): boolean => bar.index === 0 && bar.nominal !== null && compare(bar.duration, bar.nominal) < 0;

/** The number of the bar at `index`. */
export const barNumber = ({ bars: [first] }: Voice, index: number): number =>
  first !== undefined && isOpeningPickup(first) ? index : index + 1;

/** The number of the bar at a place of the tune; null in the header and between bars. */
export function barNumberAt({ voices }: Pick<Score, 'voices'>, offset: number): number | null {
  for (const voice of voices) {
    const bar = voice.bars.find(({ from, to }) => from <= offset && offset < to);
    if (bar !== undefined) return barNumber(voice, bar.index);
  }
  return null;
}
