// A setup turned into the numbers the engine works with.
import { frameRules } from './frames.ts';
import { reachOf } from './setup.ts';
import { spanMm } from './stops.ts';
import type { FrameRule, Limits, Player, Setup } from './types.ts';

/**
 * Hard limits. No shift times are published for the bass: the acceleration is the strictest at which every printed scale of the handbooks
 * stays playable at eight notes a second, and 10 % more; the others are assumed, and were tried far apart without losing a printed passage.
 */
const limits: Limits = {
  acceleration: { limit: 120, comfortable: 80 },
  holdShare: 0.25,
  holdLeast: 30_000,
  thumbInOut: 60_000,
  pivotMm: 60,
  pivotShare: 0.7,
  hop: 70_000,
};

/** The player of a setup. The setup should have passed `checkSetup`. */
export function makePlayer(setup: Setup): Player {
  const reach = reachOf(setup);
  return { setup, reach, frames: frameRules(setup, reach), limits };
}

/** Whether a rule lets its finger stand on `stop`, reach apart. */
export function ruleCovers(rule: FrameRule, stop: number): boolean {
  const place = stop - rule.offset;
  return place >= rule.fromPlace && place <= rule.toPlace && stop <= rule.toStop;
}

/** Whether the hand spans the rule at `stop`. */
export function ruleWithinReach(player: Player, rule: FrameRule, stop: number): boolean {
  return rule.limit === null || spanMm(player.setup.mensur, stop - rule.offset, stop) <= rule.limit;
}
