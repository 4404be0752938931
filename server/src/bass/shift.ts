// Moving the hand along the neck: how far, and how long it takes.
import { spanMm } from './stops.ts';
import type { Hand, Player } from './types.ts';

/** A minimum-jerk move over D metres with peak acceleration a takes sqrt(5.77 D / a) seconds (5.77 = 10/sqrt(3), the peak of its acceleration at unit length and time). */
const minimumJerk = 5.77;

/** Way of the hand in mm. Between neck and thumb position: the smaller of the index finger's way and the thumb's. */
export function handWay(mensur: number, from: Hand, to: Hand): number {
  if (from.kind === to.kind) return spanMm(mensur, from.place, to.place);
  const neck = from.kind === 'neck' ? from : to;
  const thumb = from.kind === 'thumb' ? from : to;
  return Math.min(spanMm(mensur, neck.place, thumb.place + 2), spanMm(mensur, neck.place + 1, thumb.place));
}

/** Whether a move is a pivot: on the neck, the thumb stays behind it while the hand rolls. */
export function isPivot(player: Player, from: Hand, to: Hand): boolean {
  return from.kind === 'neck' && to.kind === 'neck' && handWay(player.setup.mensur, from, to) <= player.limits.pivotMm;
}

/** Time in microseconds that a move takes at `acceleration` m/s², thumb in or out included, without the ease of a pivot; 0 for the same hand. */
export function moveTime(player: Player, from: Hand, to: Hand, acceleration: number): number {
  if (from.kind === to.kind && from.place === to.place) return 0;
  const metres = handWay(player.setup.mensur, from, to) / 1000;
  const thumb = from.kind === to.kind ? 0 : player.limits.thumbInOut;
  return Math.round(1e6 * Math.sqrt((minimumJerk * metres) / acceleration)) + thumb;
}

/** Least time in microseconds for a move: `moveTime`, eased by a pivot. */
export function shiftTime(player: Player, from: Hand, to: Hand, acceleration: number): number {
  const time = moveTime(player, from, to, acceleration);
  return isPivot(player, from, to) ? Math.round(time * player.limits.pivotShare) : time;
}
