// Feeds planned sounds to an instrument a little ahead of time, round after round; a new plan takes over between two sounds.
import type { PlayPlan, Sound } from './plan.ts';
import { soundsOfRound } from './plan.ts';

export interface Feed {
  /** Sounds that fall before `until` (on the clock) and were not given before, each with its time. */
  due(until: number): { readonly sound: Sound; readonly time: number }[];
  /** Goes on with another plan of the same stretch: what was given stays, the next sound keeps its place in the music. */
  change(plan: PlayPlan): void;
  /** When the last round ends, on the clock; infinite in a loop. */
  readonly end: number;
}

/** `origin` is the clock's time of the first sound. */
export function makeFeed(first: PlayPlan, origin: number, repeat: 'once' | 'loop'): Feed {
  let plan = first;
  let start = origin;
  let round = 0;
  let next = 0;
  let sounds = soundsOfRound(plan, 0);
  const over = (): boolean => next >= sounds.length && repeat === 'once';
  return {
    due(until) {
      const found: { sound: Sound; time: number }[] = [];
      while (!over()) {
        if (next >= sounds.length) {
          if (plan.round <= 0) break;
          round++;
          next = 0;
          sounds = soundsOfRound(plan, round);
          if (sounds.length === 0) break;
        }
        const sound = sounds[next]!;
        if (start + sound.at >= until) break;
        found.push({ sound, time: start + sound.at });
        next++;
      }
      return found;
    },
    change(other) {
      const given = sounds[Math.max(0, next - 1)];
      sounds = soundsOfRound(other, round);
      if (given !== undefined) {
        // Aligned by the place in the music: clicks or chords may have come or gone, so an index says nothing.
        const twin = sounds.find(({ place }) => Math.abs(place - given.place) < 1e-9);
        start += given.at - (twin?.at ?? other.at(given.place) + round * other.round);
        if (next > 0) next = sounds.filter(({ place }) => place <= given.place + 1e-9).length;
      }
      plan = other;
    },
    get end() {
      return repeat === 'loop' ? Number.POSITIVE_INFINITY : start + plan.countIn + plan.round;
    },
  };
}
