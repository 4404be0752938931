// All checks, in the order of the documentation, and the way to run them.
import { accentNotPlucked } from './accent-not-plucked.ts';
import { accidentalRedundant } from './accidental-redundant.ts';
import { barTooLong } from './bar-too-long.ts';
import { barTooShort } from './bar-too-short.ts';
import { bullfiddleBadValue } from './bullfiddle-bad-value.ts';
import { bullfiddleUnknownKey } from './bullfiddle-unknown-key.ts';
import type { AnyCheck, Finding, Need, StageOf } from './check.ts';
import { runChecks } from './findings.ts';
import { fingerFourHigh } from './finger-four-high.ts';
import { fingerNotInFrame } from './finger-not-in-frame.ts';
import { fingerThreeLow } from './finger-three-low.ts';
import { hammerCrossesStrings } from './hammer-crosses-strings.ts';
import { harmonicNoNode } from './harmonic-no-node.ts';
import { hopTooFast } from './hop-too-fast.ts';
import { noteFades } from './note-fades.ts';
import { pinChordSymbol } from './pin-chord-symbol.ts';
import { pinContradiction } from './pin-contradiction.ts';
import { pinUnknownString } from './pin-unknown-string.ts';
import { pluckTooFast } from './pluck-too-fast.ts';
import { pullWrongDirection } from './pull-wrong-direction.ts';
import { rangeOffBoard } from './range-off-board.ts';
import { rangeTooHigh } from './range-too-high.ts';
import { rangeTooLow } from './range-too-low.ts';
import { reachTooWide } from './reach-too-wide.ts';
import { repeatUnmatched } from './repeat-unmatched.ts';
import { shiftTooFar } from './shift-too-far.ts';
import { slideCrossesStrings } from './slide-crosses-strings.ts';
import { slideOpenString } from './slide-open-string.ts';
import { slurSamePitch } from './slur-same-pitch.ts';
import { text } from './text.ts';
import { thumbTooLow } from './thumb-too-low.ts';
import { tieDifferentPitch } from './tie-different-pitch.ts';
import { versionDrift } from './version-drift.ts';
import { versionStale } from './version-stale.ts';

export type { AnyCheck, Check, Finding, Fix, Need, Severity, StageOf } from './check.ts';
export { headerFindings } from './findings.ts';

export const checks: readonly AnyCheck[] = [
  text,
  barTooLong,
  barTooShort,
  repeatUnmatched,
  tieDifferentPitch,
  accidentalRedundant,
  bullfiddleUnknownKey,
  bullfiddleBadValue,
  pinChordSymbol,
  pinUnknownString,
  pinContradiction,
  rangeTooLow,
  rangeTooHigh,
  rangeOffBoard,
  reachTooWide,
  shiftTooFar,
  hopTooFast,
  pluckTooFast,
  hammerCrossesStrings,
  pullWrongDirection,
  slurSamePitch,
  slideOpenString,
  slideCrossesStrings,
  accentNotPlucked,
  harmonicNoNode,
  fingerNotInFrame,
  fingerThreeLow,
  fingerFourHigh,
  thumbTooLow,
  noteFades,
  versionDrift,
  versionStale,
];

/** The findings of a tune by all checks that need `need` or less, from its stage; see `runChecks`. */
export const findingsOf = <N extends Need>(stage: StageOf[N], need: N): readonly Finding[] => runChecks(checks, stage, need);

/** Whether findings of this code come with the fingering, not before. */
export const restsOnPlan = (code: string): boolean => checks.some(({ codes, needs }) => needs === 'plan' && codes.includes(code));
