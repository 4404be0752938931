// Words for places on the instrument and for what a choice costs.
import type { PlanPlace } from '../../arrangement/types.ts';
import type { Tuning } from '../../bass/types.ts';
import type { Finger, HandPlace, Place } from '../../fingering/types.ts';

const fingerWords: Readonly<Record<Finger, string>> = {
  '0': 'open',
  '1': 'finger 1',
  '2': 'finger 2',
  '3': 'finger 3',
  '4': 'finger 4',
  T: 'thumb',
};

/** Positions by the stop of the first finger (names after the closed-hand schools; common practice). */
const positions = ['', 'half', 'I', 'II', 'II-III', 'III', 'III-IV', 'IV', 'V', 'V-VI', 'VI', 'VI-VII', 'VII'];

type SomePlace = Pick<PlanPlace, 'string' | 'stop' | 'finger' | 'harmonic'>;

/** `G string, stop 4, finger 2`. */
export function placeWords(place: SomePlace): string {
  if (place.harmonic) return `${place.string} string, harmonic at stop ${place.stop}`;
  if (place.finger === '0') return `open ${place.string} string`;
  return `${place.string} string, stop ${place.stop}, ${fingerWords[place.finger]}`;
}

/** `G4` with its finger, short enough for a list: `G 4 with finger 2`. */
export function shortPlace(place: SomePlace): string {
  if (place.harmonic) return `${place.string} ${place.stop} harmonic`;
  if (place.finger === '0') return `${place.string} open`;
  return `${place.string} ${place.stop} with ${fingerWords[place.finger]}`;
}

/** The place with its string by name. */
export const namedPlace = (place: Place, tuning: Tuning): SomePlace => ({
  string: tuning.strings[place.string]?.name ?? '?',
  stop: place.stop,
  finger: place.finger,
  harmonic: place.harmonic,
});

/** `I position`, `thumb at stop 12`. */
export function handWords(hand: HandPlace): string {
  if (hand.frame === 'thumb') return `thumb at stop ${hand.stop}`;
  const name = positions[hand.stop];
  return name ? `${name} position` : `first finger at stop ${hand.stop}`;
}

/** What a choice costs over the best, in shifts; costs are milli-units, 1000 about one shift. */
export function costWords(regret: number): string {
  if (regret <= 0) return 'as easy as any';
  const shifts = regret / 1000;
  return `${shifts < 0.1 ? 'under 0.1' : shifts.toFixed(1)} shifts dearer`;
}

/** The decorations that pin a place: string first, then finger; the harmonic's circle instead of a finger. */
export function pinText(place: SomePlace): string {
  const string = `!sul${place.string}!`;
  if (place.harmonic) return `${string}!open!`;
  return `${string}!${place.finger === 'T' ? 'thumb' : place.finger}!`;
}
