// Cost of a place in itself: what a finger at a stop asks for, whatever comes before.
import { spanMm, stopMm } from '../../bass/index.ts';
import type { Hand, Player } from '../../bass/types.ts';
import type { Place } from '../types.ts';
import type { Weights } from './weights.ts';

/** One stopped place in its hand. */
export interface Stopped {
  readonly place: Place;
  readonly hand: Hand;
}

type Term = (player: Player, at: Stopped) => number;

/** Amount of each term, to be multiplied by the weight of its name. */
export const nodeTerms = {
  stopped: () => 1,
  /** High stops of low strings sound dull. */
  dullness: (_, { place }) => (place.stop > 0 ? (place.stop ** 2 * place.string) / 432 : 0),
  halfPosition: (_, { hand }) => Number(hand.kind === 'neck' && hand.place === 1),
  extension: ({ setup }, { place, hand }) =>
    hand.kind === 'neck' && place.finger === '4' && place.stop - hand.place >= 3
      ? (spanMm(setup.mensur, hand.place, place.stop) / 100) ** 2
      : 0,
  height: ({ setup }, { place }) => Math.max(0, stopMm(setup.mensur, place.stop)) / 1000,
  lowStringHigh: (_, { place, hand }) => (hand.kind === 'neck' && place.string > 0 ? Math.max(0, place.stop - 8) / 2 : 0),
  fourHigh: (_, { place }) => (place.finger === '4' && place.stop >= 12 ? place.stop - 11 : 0),
  threeLow: ({ setup }, { place, hand }) =>
    hand.kind === 'neck' && place.finger === '3' && hand.place < 10 && !(setup.school === 'one-three-four' && place.stop - hand.place === 1)
      ? (10 - hand.place) / 4 + 0.5
      : 0,
  stretched: (_, { place, hand }) =>
    Number(
      hand.kind === 'neck' &&
        ((place.finger === '2' && place.stop - hand.place === 2) || (place.finger === '3' && place.stop - hand.place === 3)),
    ),
  neckHigh: (_, { hand }) => (hand.kind === 'neck' ? Math.max(0, hand.place - 10) / 2 : 0),
  thumb: (_, { hand }) => Number(hand.kind === 'thumb'),
  thumbOffOctave: (_, { hand }) => Number(hand.kind === 'thumb' && hand.place !== 12),
  thumbLow: ({ setup }, { place, hand }) =>
    Number(hand.kind === 'thumb' && (hand.place < setup.thumb - 1 || (place.finger === 'T' && place.stop < setup.thumb))),
  thumbLower: ({ setup }, { hand }) => (hand.kind === 'thumb' ? Math.max(0, setup.thumb - 1 - hand.place) / 4 : 0),
  thumbOnThird: (_, { place }) => Number(place.finger === 'T' && place.string === 2),
  thumbOnFourth: (_, { place }) => Number(place.finger === 'T' && place.string > 2),
  thumbSpread: ({ setup, reach }, { place, hand }) =>
    hand.kind === 'thumb' && place.finger !== 'T'
      ? Math.max(0, spanMm(setup.mensur, hand.place, place.stop) - comfort(place, reach.comfortable.thumbThree)) / 30
      : 0,
} satisfies Partial<Record<keyof Weights, Term>>;

/** Comfortable way in mm from the thumb to a finger: index and middle finger stand nearer than the third. Assumed. */
function comfort(place: Place, thumbThree: number): number {
  return place.finger === '1' ? 60 : place.finger === '2' ? 90 : thumbThree;
}

const named = Object.entries(nodeTerms) as readonly [keyof typeof nodeTerms, Term][];

/** Cost of one stopped place in milli-units, the constant of a note apart. */
export function stoppedCost(player: Player, weights: Weights, at: Stopped): number {
  return Math.round(named.reduce((sum, [name, term]) => sum + weights[name] * term(player, at), 0));
}
