// Classes of hard limits that can be lifted one by one, to find which of them makes a passage impossible.

/** `crosses`: a slur stays on its string and ends stopped or pulled to the open string. `direction`: fingers follow the direction of a slur. `slide`: same string, same finger, stopped at both ends. `reach`: what a hand spans, and no shift inside a slur. `hop`: one finger on two strings. `time`: the hand's way. */
export type LimitClass = 'crosses' | 'direction' | 'slide' | 'reach' | 'hop' | 'time';

/** In the order in which the blame is laid. */
export const limitClasses: readonly LimitClass[] = ['crosses', 'reach', 'direction', 'slide', 'hop', 'time'];

export type Lifted = ReadonlySet<LimitClass>;
export const nothingLifted: Lifted = new Set();
