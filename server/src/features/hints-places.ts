// String, stop and finger beside each note of a bass part, or only where the hand moves.
import type { Feature } from './feature.ts';
import type { Hint } from './hint.ts';

/** There is one question: the whole tune. */
export const placeHints: Feature<'plan', null, readonly Hint[]> = {
  needs: 'plan',
  answer({ fingered }, _question, { hints }) {
    if (hints.places === 'off') return [];
    return fingered.flatMap(({ plan }) =>
      plan.notes.flatMap((note, i): readonly Hint[] => {
        const shown = note.places.length > 0 && (hints.places === 'all' || note.shift || i === 0);
        return shown ? [{ at: note.from, side: 'before', text: note.places.map(shortest).join(' ') }] : [];
      }),
    );
  },
};

/** `G4:2`: string, stop, finger. */
const shortest = (place: { readonly string: string; readonly stop: number; readonly finger: string; readonly harmonic: boolean }): string =>
  `${place.string}${place.stop}${place.harmonic ? 'h' : place.finger === '0' ? '' : `:${place.finger}`}`;
