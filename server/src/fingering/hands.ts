// Hands by number, so that tables can be arrays: 0 is no hand yet (before the first stopped note), then the neck by place, then the thumb.
import type { Hand, Player } from '../bass/types.ts';
import type { Finger, HandPlace, Place } from './types.ts';

/** The hand before the first stopped note: it moves free. */
export const noHand = 0;
const neckLeast = -4;
const neckMost = 13;
const thumbLeast = 5;
const thumbMost = 36;
const neckBase = 1 - neckLeast;
const thumbBase = neckBase + neckMost + 1 - thumbLeast;

/** How many numbers there are. */
export const handCount = thumbBase + thumbMost + 1;

/** Number of a hand. */
export function handId(kind: Hand['kind'], place: number): number {
  return kind === 'neck' ? neckBase + place : thumbBase + place;
}

const all: readonly (Hand | null)[] = Array.from({ length: handCount }, (_, id) => {
  if (id === noHand) return null;
  return id <= neckBase + neckMost ? { kind: 'neck', place: id - neckBase } : { kind: 'thumb', place: id - thumbBase };
});

/** The hand of a number; null for no hand. */
export function handOf(id: number): Hand | null {
  return all[id]!;
}

/** Numbers of all hands that a player's frames have, in order. */
export function handsOf({ frames }: Player): readonly number[] {
  const placed = frames.flatMap(({ kind, fromPlace, toPlace }) =>
    Array.from({ length: toPlace - fromPlace + 1 }, (_, i) => handId(kind, fromPlace + i)),
  );
  return [...new Set(placed)].sort((a, b) => a - b);
}

const ranks: Readonly<Record<Finger, number>> = { '0': 0, T: 1, '1': 2, '2': 3, '3': 4, '4': 5 };

/** Order of the fingers in a hand: open string, thumb, 1 to 4. */
export function fingerRank(finger: Finger): number {
  return ranks[finger];
}

/** Place from which the neck hand's frame is called upper: 3 takes over from 4 (position VI). */
const upperFrom = 10;

/** The hand as a player names it: closed, open (4 a minor third or more above 1), upper, or thumb position. */
export function namedHand(id: number, places: readonly Place[]): HandPlace | null {
  const hand = handOf(id);
  if (hand === null) return null;
  if (hand.kind === 'thumb') return { frame: 'thumb', stop: hand.place };
  const stretched = places.some((place) => place.finger === '4' && place.stop - hand.place >= 3);
  return { frame: stretched ? 'open' : hand.place >= upperFrom ? 'upper' : 'closed', stop: hand.place };
}
