// One step between two states, time apart: which are possible, and what strings and fingers cost.
import { fingerCost } from './cost/fingers.ts';
import { stringCost, stringWay } from './cost/strings.ts';
import { handOf, noHand } from './hands.ts';
import type { State } from './layers.ts';
import { hops } from './limits/hop.ts';
import type { Lifted } from './limits/lifted.ts';
import { fitInTurn } from './limits/order.ts';
import { canGlide } from './limits/slide.ts';
import { canHammer, canPull } from './limits/slur.ts';
import { freeMost } from './limits/time.ts';
import { never, type StepRules, type Way } from './rules.ts';
import type { Place } from './types.ts';

/** Cost of going from `a` to `b` and of being there, without the hand's move; `never` if a limit forbids it. `quick`: too quick for one finger on two strings. */
export function stepCost(rules: StepRules, a: State, b: State, way: Way, quick: boolean): number {
  return carries(a.hand, a.free, b.hand, b.free) && !(quick && hops(a.places, b.places)) ? gripStepCost(rules, a, b, way) : never;
}

/** An open string keeps the hand of the note before, and counts one open note more. */
export function carries(hand: number, free: number, nextHand: number, nextFree: number): boolean {
  if (nextFree === 0) return true;
  return nextHand === hand && nextFree === (hand === noHand ? 1 : Math.min(freeMost, free + 1));
}

/** `stepCost` with no hop judged, of two states that can carry on. It is the same for all hands that open strings may carry: no rule of fingers or slurs asks for the hand behind an open string. */
export function gripStepCost(rules: StepRules, a: State, b: State, way: Way): number {
  if (!bound(rules, a, b, way)) return never;
  const fingers = fingersInTurn(rules, a, b);
  return fingers === never ? never : b.cost + stringCost(rules.weights, stringWay(a.places, b.places)) + fingers;
}

/** What a slur or slide asks of each head that is played. */
function bound({ lifted }: StepRules, a: State, b: State, way: Way): boolean {
  if (way === 'free') return true;
  const sameHand = a.hand === b.hand;
  return b.places.every((to) => a.places.some((from) => binds[way](from, to, sameHand, lifted)));
}

const binds: Readonly<Record<Exclude<Way, 'free'>, (from: Place, to: Place, sameHand: boolean, lifted: Lifted) => boolean>> = {
  hammer: canHammer,
  pull: canPull,
  glide: (from, to, _, lifted) => canGlide(from, to, lifted),
};

function fingersInTurn(rules: StepRules, a: State, b: State): number {
  if (a.free > 0 || b.free > 0) return 0;
  const sameHand = a.hand === b.hand;
  const { kind } = handOf(b.hand)!;
  let cost = 0;
  for (const from of a.places) {
    for (const to of b.places) {
      if (!onOneString(from, to)) continue;
      if (sameHand && !fitInTurn(from, to, kind)) return never;
      cost += fingerCost(rules.weights, { from, to, sameHand });
    }
  }
  return cost;
}

function onOneString(a: Place, b: Place): boolean {
  return a.string === b.string && a.finger !== '0' && b.finger !== '0';
}
