// Slides: one finger along one string, stopped at both ends.
import type { Place } from '../types.ts';
import type { Lifted } from './lifted.ts';

/** Whether the finger of `from` can slide to `to`. */
export function canGlide(from: Place, to: Place, lifted: Lifted): boolean {
  if (lifted.has('slide')) return true;
  return from.string === to.string && from.finger !== '0' && from.finger === to.finger && from.stop !== to.stop;
}

/** Whether `to` can be approached by a slide from just below: it must be stopped. */
export function canScoop(to: Place, lifted: Lifted): boolean {
  return to.finger !== '0' || lifted.has('slide');
}
