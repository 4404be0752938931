// Hops: one finger that must leave one string for another. A thumb laid across the strings at one stop does not hop.
import type { Place } from '../types.ts';

/** Whether a finger of `from` must hop to another string for `to`. */
export function hops(from: readonly Place[], to: readonly Place[]): boolean {
  return to.some((target) => target.finger !== '0' && !holds(from, target) && from.some((source) => leaves(source, target)));
}

function leaves(source: Place, target: Place): boolean {
  const barred = source.finger === 'T' && source.stop === target.stop;
  return source.finger === target.finger && source.string !== target.string && !barred;
}

function holds(from: readonly Place[], target: Place): boolean {
  return from.some((source) => source.finger === target.finger && source.string === target.string && source.stop === target.stop);
}
