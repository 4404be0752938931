// Order in the hand: a higher finger is not a lower stop.
import { fingerRank } from '../hands.ts';
import type { Place } from '../types.ts';

/** Whether two stopped places fit one hand at once, on two strings: a higher finger not lower, one finger only at one stop. */
export function fitTogether(a: Place, b: Place): boolean {
  const fingers = fingerRank(b.finger) - fingerRank(a.finger);
  return fingers === 0 ? a.stop === b.stop : (b.stop - a.stop) * Math.sign(fingers) >= 0;
}

/** Whether two stopped places can follow each other on one string in one place of the hand: a higher finger is a higher stop. The same finger stays, or crawls in thumb position. */
export function fitInTurn(a: Place, b: Place, kind: 'neck' | 'thumb'): boolean {
  const fingers = fingerRank(b.finger) - fingerRank(a.finger);
  if (fingers === 0) return a.stop === b.stop || kind === 'thumb';
  return (b.stop - a.stop) * Math.sign(fingers) > 0;
}
