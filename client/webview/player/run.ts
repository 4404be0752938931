// One run of the player: feeds the instrument a little ahead of the clock, whichever clock it is.
import { type Given, makeFeed, type Repeat } from './clock.ts';
import type { PlayPlan } from './plan.ts';
import type { Instrument } from './voice.ts';

/** How far ahead sounds are put on the clock, and how often that is to be done, in seconds. */
export const ahead = 0.2;
export const interval = 0.05;

export interface Run {
  /** Puts on the clock what falls due soon; to be called at least every `interval`. */
  pump(now: number): readonly Given[];
  /** Goes on with another plan, without a gap; what rings is held or stopped as the new pace has it. */
  change(plan: PlayPlan, repeat: Repeat): void;
  over(now: number): boolean;
}

/** `origin` is the clock's time of the first sound. */
export function makeRun(instrument: Instrument, plan: PlayPlan, origin: number, repeat: Repeat): Run {
  const feed = makeFeed(plan, origin, repeat);
  return {
    pump(now) {
      const given = feed.due(now + ahead);
      for (const each of given) instrument.play(each);
      return given;
    },
    change(other, again) {
      for (const { sound, end } of feed.change(other, again)) instrument.hold(sound, end);
    },
    over: (now) => now > feed.end,
  };
}
