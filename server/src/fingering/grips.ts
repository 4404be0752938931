// Every way to take one note: places for its heads in one hand, within the limits that do not depend on the note before.
import { nodesFor, ruleCovers, ruleWithinReach } from '../bass/index.ts';
import type { FrameRule, Player } from '../bass/types.ts';
import { stoppedCost } from './cost/node.ts';
import type { Weights } from './cost/weights.ts';
import { fingerRank, handId, handOf, noHand } from './hands.ts';
import type { Lifted } from './limits/lifted.ts';
import { fitTogether } from './limits/order.ts';
import { canScoop } from './limits/slide.ts';
import type { Pin, Place, TaskNote } from './types.ts';

/** What must be known of a note to place it. */
export interface Asked {
  readonly pitches: readonly number[];
  readonly pins: readonly Pin[];
  readonly handStop: number | null;
  readonly articulation: TaskNote['articulation'];
}

/** Places for all heads in one hand. `hand` is `noHand` when all strings are open: the hand is then elsewhere. */
export interface Grip {
  readonly places: readonly Place[];
  readonly hand: number;
  readonly cost: number;
}

/** One place and the hand it asks for. */
interface Placed {
  readonly place: Place;
  readonly hand: number;
}

/** Numbers and rules that grips are made by. */
export interface GripRules {
  readonly player: Player;
  readonly weights: Weights;
  readonly lifted: Lifted;
}

/** All grips of a note in a fixed order: by string from the highest, then hand, then finger. */
export function gripsFor(rules: GripRules, asked: Asked): readonly Grip[] {
  const heads = asked.pitches.map((pitch, i) => placesFor(rules, pitch, asked.pins[i] ?? noPin, asked));
  return combine(heads).map((placed) => priced(rules, placed));
}

const noPin: Pin = { finger: null, string: null, harmonic: false };

/** One head after another, strings all different, stopped ones in one hand. */
function combine(heads: readonly (readonly Placed[])[]): readonly (readonly Placed[])[] {
  let chosen: readonly (readonly Placed[])[] = [[]];
  for (const head of heads) {
    chosen = chosen.flatMap((before) =>
      head.filter((next) => before.every((other) => together(other, next))).map((next) => [...before, next]),
    );
  }
  return chosen;
}

function together(a: Placed, b: Placed): boolean {
  if (a.place.string === b.place.string) return false;
  if (a.hand === noHand || b.hand === noHand) return true;
  return a.hand === b.hand && fitTogether(a.place, b.place);
}

function priced({ player, weights }: GripRules, placed: readonly Placed[]): Grip {
  const costs = placed.map(({ place, hand }) => (hand === noHand ? 0 : stoppedCost(player, weights, { place, hand: handOf(hand)! })));
  return {
    places: placed.map(({ place }) => place),
    hand: placed.find(({ hand }) => hand !== noHand)?.hand ?? noHand,
    cost: costs.reduce((sum, cost) => sum + cost, weights.note),
  };
}

/** Places of one pitch that its pin allows. */
function placesFor(rules: GripRules, pitch: number, pin: Pin, asked: Asked): readonly Placed[] {
  const { strings } = rules.player.setup.tuning;
  return strings
    .flatMap((spec, string) => {
      if (pin.string !== null && pin.string !== string) return [];
      const semitones = pitch - spec.open;
      if (pin.harmonic)
        return nodesFor(semitones, rules.player.setup.top).flatMap((node) => stoppedAt(rules, string, Math.round(node.stop), true));
      if (semitones === 0) return [open(string)];
      return semitones >= spec.lowestStop && semitones <= rules.player.setup.top ? stoppedAt(rules, string, semitones, false) : [];
    })
    .filter(({ place, hand }) => allowed(rules, place, hand, pin, asked));
}

function allowed({ lifted }: GripRules, place: Place, hand: number, pin: Pin, { handStop, articulation }: Asked): boolean {
  if (pin.finger !== null && pin.finger !== place.finger) return false;
  if (handStop !== null && hand !== noHand && handOf(hand)!.place !== handStop) return false;
  if (articulation === 'scoop' && !canScoop(place, lifted)) return false;
  return articulation !== 'left-hand' || leavesFinger(place, hand);
}

/** A left-hand pizzicato needs a finger above the one that stops. */
function leavesFinger(place: Place, hand: number): boolean {
  return hand === noHand || fingerRank(place.finger) < fingerRank(handOf(hand)!.kind === 'neck' ? '4' : '3');
}

function open(string: number): Placed {
  return { place: { string, stop: 0, finger: '0', harmonic: false }, hand: noHand };
}

function stoppedAt(rules: GripRules, string: number, stop: number, harmonic: boolean): readonly Placed[] {
  return framesOf(rules)
    .filter((rule) => ruleCovers(rule, stop) && (rules.lifted.has('reach') || ruleWithinReach(rules.player, rule, stop)))
    .map((rule) => ({ place: { string, stop, finger: rule.finger, harmonic }, hand: handId(rule.kind, stop - rule.offset) }))
    .sort((a, b) => a.hand - b.hand || fingerRank(a.place.finger) - fingerRank(b.place.finger));
}

const wideSpan = 12;

/** The frames; with the reach lifted the outer fingers stretch over any span up to an octave. */
function framesOf({ player, lifted }: GripRules): readonly FrameRule[] {
  if (!lifted.has('reach')) return player.frames;
  const widened = player.frames.filter((rule) => (rule.kind === 'neck' ? rule.finger === '4' : rule.finger === '3') && rule.offset === 3);
  const wide = widened.flatMap((rule) =>
    Array.from({ length: wideSpan - 2 }, (_, i) => ({ ...rule, offset: i + 3, fromPlace: rule.kind === 'neck' ? 1 : rule.fromPlace })),
  );
  return [...player.frames.filter((rule) => !widened.includes(rule) && rule.offset < 4), ...wide];
}
