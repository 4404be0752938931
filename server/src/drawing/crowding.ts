// Stops that stand close on one string are set narrower, so that two numbers never read as one and a slide has room between.
import type { DrawnStop } from './tab.ts';

/** Least air between two numbers of a string, in units: with 1.5 `14 12` does not read as `1412`. */
const leastGap = 1.6;
/** Room wanted for a slide between two numbers, and for one that comes from below; given as far as numbers keep this share of their width. */
const slideGap = 5.5;
const scoopGap = 8.5;
const leastForSlide = 0.65;

/** A number is narrowed by so much; beyond that it is made smaller too, down to this share of its size, then narrowed again. */
const leastStretch = 0.8;
const leastSize = 0.84;
/** Where heads stand all but on each other, a number is still to be seen. */
const leastShare = 0.3;

function gapBefore(stop: DrawnStop): number {
  const attack = stop.note.plan?.attack;
  if (attack === 'glide') return slideGap;
  return attack === 'scoop' ? scoopGap : leastGap;
}

/** The share of their width that two neighbours of a string may take. */
function shareOf(before: DrawnStop, stop: DrawnStop): number {
  const shareWith = (gap: number): number => (stop.x - before.x - gap) / (before.halfWidth + stop.halfWidth);
  const wanted = shareWith(gapBefore(stop));
  return Math.max(wanted, Math.min(shareWith(leastGap), leastForSlide), leastShare);
}

/** The share of its width that each stop may take; those with room enough are not in it. */
function sharesOf(stops: readonly DrawnStop[]): Map<DrawnStop, number> {
  const shares = new Map<DrawnStop, number>();
  const inOrder = [...stops].sort((a, b) => a.string - b.string || a.x - b.x);
  for (const [i, stop] of inOrder.entries()) {
    const before = inOrder[i - 1];
    if (before?.string !== stop.string) continue;
    const share = shareOf(before, stop);
    if (share < 1) for (const each of [before, stop]) shares.set(each, Math.min(share, shares.get(each) ?? 1));
  }
  return shares;
}

/** To a hundredth, as painters round, and never up: rounding must not take the air. */
const down = (share: number): number => Math.floor(share * 100) / 100;

/** The stops of a tab with those in a crowd set narrower, and smaller where that is not enough. */
export function setApart(stops: readonly DrawnStop[]): DrawnStop[] {
  const shares = sharesOf(stops);
  return stops.map((stop) => {
    const share = shares.get(stop);
    if (share === undefined) return stop;
    const smaller = Math.min(1, Math.max(leastSize, share / leastStretch));
    return { ...stop, size: stop.size * smaller, stretch: down(share / smaller), halfWidth: stop.halfWidth * share };
  });
}
