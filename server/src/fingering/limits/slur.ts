// Slurs: hammer-on up, pull-off down, one string, one hand.
import { fingerRank } from '../hands.ts';
import type { Place } from '../types.ts';
import type { Lifted } from './lifted.ts';

/** Whether `to` can be hammered from `from`: same string, a higher stop, stopped by a higher finger of the same hand; from an open string any finger will do. */
export function canHammer(from: Place, to: Place, sameHand: boolean, lifted: Lifted): boolean {
  if (from.string !== to.string || to.finger === '0') return lifted.has('crosses');
  const rising = to.stop > from.stop && fingerRank(to.finger) > fingerRank(from.finger);
  return rising ? sameHand || from.finger === '0' || lifted.has('reach') : lifted.has('direction');
}

/** Whether `to` can be pulled from `from`: same string, from a stopped note to a lower finger already down in the same hand, or to the open string. */
export function canPull(from: Place, to: Place, sameHand: boolean, lifted: Lifted): boolean {
  if (from.string !== to.string) return lifted.has('crosses');
  const falling = to.stop < from.stop && from.finger !== '0' && fingerRank(to.finger) < fingerRank(from.finger);
  return falling ? sameHand || to.finger === '0' || lifted.has('reach') : lifted.has('direction');
}
