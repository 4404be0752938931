// The bass and the hand: tunings, stops, reach, frames, moves.
export { neckTop, thumbFloor } from './frames.ts';
export { type Node, nodes, nodesFor } from './harmonics.ts';
export { makePlayer, ruleCovers, ruleWithinReach } from './player.ts';
export { checkSetup, defaultSetup, handSpans, reachOf } from './setup.ts';
export { handWay, isPivot, moveTime, shiftTime } from './shift.ts';
export { frequency, spanMm, stopMm } from './stops.ts';
export { tuningNamed, tuningNames, tuningOf } from './tunings.ts';
export type * from './types.ts';
