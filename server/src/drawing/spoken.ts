// What a screen reader says of a tab note.
import type { PlanNote, PlanPlace } from '../arrangement/types.ts';

const fingerWords: Readonly<Record<string, string>> = {
  '1': 'first finger',
  '2': 'second finger',
  '3': 'third finger',
  '4': 'fourth finger',
  T: 'thumb',
};

const attackWords: Readonly<Record<PlanNote['attack'], string | null>> = {
  pluck: null,
  hammer: 'hammer-on',
  pull: 'pull-off',
  glide: 'slide',
  scoop: 'slide from below',
  'left-hand': 'left-hand pluck',
  dead: 'dead note',
};

/** "D string, stop 5, third finger, hammer-on"; "open G string, stop 0". What is printed is said too, so that it can be asked for by voice. */
export function spokenPlace(place: PlanPlace, note: PlanNote): string {
  const where =
    place.stop === 0
      ? `open ${place.string} string, stop 0`
      : `${place.string} string, stop ${place.stop}, ${fingerWords[place.finger] ?? place.finger}`;
  const parts = [where, place.harmonic ? 'harmonic' : null, attackWords[note.attack], note.shift ? 'shift' : null];
  return parts.filter((part) => part !== null).join(', ');
}
