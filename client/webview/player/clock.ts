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
      const changed = soundsOfRound(other, round);
      const last = Math.max(0, next - 1);
      const [old, now] = [sounds[last], changed[last]];
      if (old !== undefined && now !== undefined) start += old.at - now.at;
      plan = other;
      sounds = changed;
    },
    get end() {
      return repeat === 'loop' ? Number.POSITIVE_INFINITY : start + plan.countIn + plan.round;
    },
  };
}
