// The player's settings: the default, what is allowed, and the reach they come to.
import { tuningNamed } from './tunings.ts';
import type { HandSize, HandSpans, Reach, Setup, SetupProblem } from './types.ts';

/** Spans in mm, comfortable and extended. A judgement, not a measurement: no measured reach on a bass is published. */
export const handSpans: Readonly<Record<HandSize, HandSpans>> = {
  small: { oneFour: { comfortable: 100, extended: 112 }, thumbThree: { comfortable: 110, extended: 132 } },
  medium: { oneFour: { comfortable: 110, extended: 126 }, thumbThree: { comfortable: 132, extended: 150 } },
  large: { oneFour: { comfortable: 120, extended: 142 }, thumbThree: { comfortable: 145, extended: 176 } },
};

/** A 3/4 bass of 1050 mm in standard tuning, a medium closed hand, stops to 24, thumb from the octave, seven comfortable attacks a second, a D-neck. */
export const defaultSetup: Setup = {
  tuning: tuningNamed('standard')!,
  mensur: 1050,
  hand: 'medium',
  top: 24,
  school: 'closed',
  thumb: 12,
  pluck: 7,
  neckHeel: 7,
};

/** Allowed values, both ends included. */
const ranges = {
  mensur: { least: 800, most: 1150, unit: ' mm' },
  top: { least: 7, most: 36, unit: '' },
  thumb: { least: 5, most: 24, unit: '' },
  pluck: { least: 1, most: 10, unit: ' a second' },
  neckHeel: { least: 7, most: 8, unit: '' },
} as const;

/** Everything in a setup that is outside what the engine knows; empty for a good one. */
export function checkSetup(setup: Setup): SetupProblem[] {
  const outside = (Object.keys(ranges) as (keyof typeof ranges)[]).flatMap((key) => {
    const { least, most, unit } = ranges[key];
    const given = setup[key];
    if (given >= least && given <= most) return [];
    return [{ key, message: `${key} is ${given}; it must be from ${least} to ${most}${unit}.`, allowed: [`${least}..${most}`] }];
  });
  const spans = typeof setup.hand === 'string' ? [] : Object.values(setup.hand);
  const crooked = spans.some((one) => !(one.comfortable > 0 && one.comfortable <= one.extended && one.extended <= 250));
  const hand: SetupProblem = {
    key: 'hand',
    message: 'Spans of the hand are given in mm, comfortable then extended, both over 0 and the second no less than the first, up to 250.',
    allowed: ['small', 'medium', 'large'],
  };
  return crooked ? [...outside, hand] : outside;
}

/** Reach in mm on the string. */
export function reachOf(setup: Setup): Reach {
  const spans = typeof setup.hand === 'string' ? handSpans[setup.hand] : setup.hand;
  return {
    comfortable: { oneFour: spans.oneFour.comfortable, thumbThree: spans.thumbThree.comfortable },
    extended: { oneFour: spans.oneFour.extended, thumbThree: spans.thumbThree.extended },
  };
}
