// The rules told once more for the recheck: every way to take a note, and what going on to the next costs. Only the terms of cost and the facts of bass and hand are shared with the search.
import { nodesFor, ruleCovers, ruleWithinReach, shiftTime } from '../bass/index.ts';
import type { Hand } from '../bass/types.ts';
import { fingerCost } from './cost/fingers.ts';
import { moveCost } from './cost/move.ts';
import { stoppedCost } from './cost/node.ts';
import { stringCost, stringWay } from './cost/strings.ts';
import { weights } from './cost/weights.ts';
import type { Finger, Pin, Place, Task } from './types.ts';

/** Places for all heads of a note, the hand they ask for (null: all strings open), and what that costs in itself. */
export interface Taking {
  readonly places: readonly Place[];
  readonly hand: Hand | null;
  readonly cost: number;
}

/** A way to have come to a note: the hand is the one left behind where all strings are open (null: none yet), `free` the open notes since. */
export interface Stand {
  readonly taking: Taking;
  readonly hand: Hand | null;
  readonly free: number;
}

/** A note on the way back: how long it sounds and the time to the one after it, microseconds. */
export interface Before {
  readonly step: number;
  readonly duration: number;
}

const fingers = '0T1234';
const rank = (finger: Finger): number => fingers.indexOf(finger);
const freeMost = 4;

/** The same hand, or both none. */
export function handsAlike(a: Hand | null, b: Hand | null): boolean {
  return a?.kind === b?.kind && a?.place === b?.place;
}

/** Every way to take note `index`. */
export function takingsOf(task: Task, index: number): readonly Taking[] {
  const { pitches, pins } = task.notes[index]!;
  let heads: readonly (readonly [Place, Hand | null][])[] = [[]];
  for (const [head, pitch] of pitches.entries()) {
    const own = placesOf(task, index, pitch, pins[head]!);
    heads = heads.flatMap((before) => own.filter((next) => before.every((other) => atOnce(other, next))).map((next) => [...before, next]));
  }
  return heads.map((placed) => ({
    places: placed.map(([place]) => place),
    hand: placed.find(([, hand]) => hand !== null)?.[1] ?? null,
    cost: placed.reduce((sum, [place, hand]) => sum + (hand ? stoppedCost(task.player, weights, { place, hand }) : 0), weights.note),
  }));
}

function placesOf(task: Task, index: number, pitch: number, pin: Pin): readonly [Place, Hand | null][] {
  const { tuning, top } = task.player.setup;
  return tuning.strings
    .flatMap(({ open, lowestStop }, string): [Place, Hand | null][] => {
      const stop = pitch - open;
      if (pin.harmonic) return nodesFor(stop, top).flatMap((node) => stoppedAt(task, string, Math.round(node.stop), true));
      if (stop === 0) return [[{ string, stop, finger: '0', harmonic: false }, null]];
      return stop >= lowestStop && stop <= top ? stoppedAt(task, string, stop, false) : [];
    })
    .filter(([place, hand]) => isAllowed(task, index, pin, place, hand));
}

function stoppedAt({ player }: Task, string: number, stop: number, harmonic: boolean): [Place, Hand | null][] {
  return player.frames
    .filter((rule) => ruleCovers(rule, stop) && ruleWithinReach(player, rule, stop))
    .map(({ kind, finger, offset }) => [
      { string, stop, finger, harmonic },
      { kind, place: stop - offset },
    ]);
}

function isAllowed(task: Task, index: number, pin: Pin, { string, finger }: Place, hand: Hand | null): boolean {
  const { articulation, handStop } = task.notes[index]!;
  if (pin.string !== null && pin.string !== string) return false;
  if (pin.finger !== null && pin.finger !== finger) return false;
  if (hand === null) return articulation !== 'scoop';
  if (handStop !== null && hand.place !== handStop) return false;
  return articulation !== 'left-hand' || rank(finger) < rank(hand.kind === 'neck' ? '4' : '3');
}

/** Two heads at once: two strings, one hand, no higher finger at a lower stop, one finger at one stop only. */
function atOnce([a, handA]: readonly [Place, Hand | null], [b, handB]: readonly [Place, Hand | null]): boolean {
  if (a.string === b.string) return false;
  if (handA === null || handB === null) return true;
  if (!handsAlike(handA, handB)) return false;
  return a.finger === b.finger ? a.stop === b.stop : rank(a.finger) < rank(b.finger) === a.stop < b.stop || a.stop === b.stop;
}

/** How one stands at the first note of a run. */
export function standAtFirst(taking: Taking): Stand {
  return { taking, hand: taking.hand, free: taking.hand === null ? 1 : 0 };
}

/** How one stands after `from` when the next note is taken so. */
export function standAfter(from: Stand, taking: Taking): Stand {
  if (taking.hand !== null) return { taking, hand: taking.hand, free: 0 };
  return { taking, hand: from.hand, free: from.hand === null ? 1 : Math.min(freeMost, from.free + 1) };
}

/** Time in microseconds for a move after `free` open notes; `back` holds the notes before it, nearest first. */
export function timeAfter({ player }: Task, back: readonly Before[], free: number): number {
  const open = back.slice(0, free).reduce((sum, { step }) => sum + step, 0);
  const left = back[free];
  if (left === undefined) return open;
  const hold = Math.max(player.limits.holdLeast, Math.ceil(left.duration * player.limits.holdShare));
  return open + Math.max(0, left.step - hold);
}

/** Cost of going from `from` to note `index` taken as `to`, that of `to` in itself apart; null where a limit forbids it. */
export function joinCost(task: Task, from: Stand, to: Stand, index: number, back: readonly Before[]): number | null {
  const alike = handsAlike(from.hand, to.hand);
  if (!isBound(task, from, to, index, alike)) return null;
  if (task.timed === 'judged' && back[0]!.step < task.player.limits.hop && hops(from.taking.places, to.taking.places)) return null;
  const turns = turnCost(from, to, alike);
  return turns === null ? null : stringCost(weights, stringWay(from.taking.places, to.taking.places)) + turns;
}

/** Cost of the hand's way from one stand to the next; null where there is no time for it. */
export function wayCost(task: Task, from: Hand | null, to: Hand | null, available: number): number | null {
  if (from === null || to === null || handsAlike(from, to)) return 0;
  const { player } = task;
  if (task.timed === 'judged' && shiftTime(player, from, to, player.limits.acceleration.limit) > available) return null;
  return moveCost(player, weights, { from, to, available });
}

function isBound(task: Task, from: Stand, to: Stand, index: number, alike: boolean): boolean {
  const { articulation } = task.notes[index]!;
  if (articulation !== 'hammer' && articulation !== 'pull' && articulation !== 'glide') return true;
  return to.taking.places.every((b) =>
    from.taking.places.some((a) => {
      if (a.string !== b.string) return false;
      if (articulation === 'glide') return a.finger !== '0' && a.finger === b.finger && a.stop !== b.stop;
      if (articulation === 'hammer') return b.stop > a.stop && rank(b.finger) > rank(a.finger) && (alike || a.finger === '0');
      return b.stop < a.stop && rank(b.finger) < rank(a.finger) && (alike || b.finger === '0');
    }),
  );
}

/** Whether a finger must leave one string for another; a thumb across the strings at one stop lies already. */
function hops(from: readonly Place[], to: readonly Place[]): boolean {
  return to.some((b) => {
    if (b.finger === '0') return false;
    const same = from.filter((a) => a.finger === b.finger);
    if (same.some((a) => a.string === b.string && a.stop === b.stop)) return false;
    return same.some((a) => a.string !== b.string && !(a.finger === 'T' && a.stop === b.stop));
  });
}

/** Fingers in turn on one string: null where they stand the wrong way round in one hand. */
function turnCost(from: Stand, to: Stand, sameHand: boolean): number | null {
  if (from.free > 0 || to.free > 0) return 0;
  const pairs = from.taking.places
    .flatMap((a) => to.taking.places.map((b) => ({ from: a, to: b, sameHand })))
    .filter(({ from: a, to: b }) => a.string === b.string && a.finger !== '0' && b.finger !== '0');
  const wrong = ({ from: a, to: b }: { readonly from: Place; readonly to: Place }): boolean =>
    a.finger === b.finger
      ? a.stop !== b.stop && to.hand!.kind !== 'thumb'
      : a.stop === b.stop || rank(a.finger) < rank(b.finger) !== a.stop < b.stop;
  if (sameHand && pairs.some(wrong)) return null;
  return pairs.reduce((sum, pair) => sum + fingerCost(weights, pair), 0);
}
