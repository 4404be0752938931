// Frames: where each finger may stand in a hand, by school. Closed, open, upper and thumb are names of what comes out, not parts of the rule.
import type { FrameRule, Reach, School, Setup } from './types.ts';

/** Highest place of finger 1 with the thumb behind the neck (position VII-VIII). */
export const neckTop = 13;
/** The little finger is not used above this stop: octave shapes reach it, nothing else does. */
const fourTop = 13;
/** Lowest thumb: the neck block. A player may ask for less, never is it tried unasked. */
export const thumbFloor = 7;
/** Index and middle finger reach less far from the thumb than the third: these shares of it. Assumed. */
const thumbShare = { '1': 0.75, '2': 0.9, '3': 1 } as const;

type NeckFinger = '1' | '2' | '3' | '4';
/** Finger, offset, and from which place on. A closed whole tone between 1 and 4 asks for no reach: every player has it. */
type NeckRow = readonly [finger: NeckFinger, offset: number, fromPlace: number];

const closed: readonly NeckRow[] = [
  ['1', 0, 1],
  ['2', 1, 1],
  ['2', 2, 9],
  ['3', 2, 5],
  ['3', 3, 8],
  ['4', 2, 1],
  ['4', 3, 5],
];

/** Rows by school; sources: closed and open, Gale's three systems; 1-3-4, Asioli and Bille; fist, the two-finger technique for thick strings (facts of the trade). Pivot is the closed hand with cheaper small moves. */
const neckRows: Readonly<Record<School, readonly NeckRow[]>> = {
  closed,
  open: closed,
  pivot: closed,
  'one-three-four': [
    ['1', 0, 1],
    ['2', 1, 9],
    ['2', 2, 9],
    ['3', 1, 1],
    ['3', 2, 5],
    ['3', 3, 8],
    ['4', 2, 1],
    ['4', 3, 5],
  ],
  fist: [
    ['1', 0, 1],
    ['2', 1, 9],
    ['3', 2, 9],
    ['4', 1, 1],
    ['4', 2, 1],
  ],
};

/** All rules of a setup: neck places 1 to 13 (and below the nut on a C extension), thumb places from the floor up. */
export function frameRules(setup: Setup, reach: Reach): readonly FrameRule[] {
  return [...neckRules(setup, reach), ...extensionRules(setup, reach), ...thumbRules(setup, reach)];
}

function neckRules(setup: Setup, reach: Reach): readonly FrameRule[] {
  return neckRows[setup.school].map(([finger, offset, fromPlace]) => ({
    kind: 'neck',
    finger,
    offset,
    fromPlace,
    toPlace: neckTop,
    toStop: finger === '4' ? Math.min(fourTop, setup.top) : setup.top,
    limit: offset === 0 || (finger === '4' && offset === 2) ? null : reach.extended.oneFour,
  }));
}

/** Below the nut only neighbouring semitones fit a hand: 1 and 2. */
function extensionRules(setup: Setup, reach: Reach): readonly FrameRule[] {
  const lowest = Math.min(...setup.tuning.strings.map((string) => string.lowestStop));
  if (lowest === 0) return [];
  const rule = { kind: 'neck', fromPlace: lowest, toPlace: -1, toStop: -1 } as const;
  return [
    { ...rule, finger: '1', offset: 0, limit: null },
    { ...rule, finger: '2', offset: 1, limit: reach.extended.oneFour },
  ];
}

function thumbRules(setup: Setup, reach: Reach): readonly FrameRule[] {
  const base = { kind: 'thumb', fromPlace: Math.min(thumbFloor, setup.thumb), toPlace: setup.top, toStop: setup.top } as const;
  const fingers = [
    ['1', [1, 2, 3]],
    ['2', [2, 3, 4]],
    ['3', [3, 4, 5, 6, 7]],
  ] as const;
  const above = fingers.flatMap(([finger, offsets]) =>
    offsets.map((offset) => ({ ...base, finger, offset, limit: thumbShare[finger] * reach.extended.thumbThree })),
  );
  return [{ ...base, finger: 'T', offset: 0, limit: null }, ...above];
}
