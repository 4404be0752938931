// From the engine's impossible windows to findings: windows that share a note are one passage, told by its worst window.
import type { BassPart, FingeredPart, PartNote, PlanStage, PlanWindow } from '../../arrangement/types.ts';
import type { LimitCode } from '../../fingering/types.ts';
import type { Span } from '../../text/span.ts';
import type { Check, Finding, Fix } from '../check.ts';
import { finding } from './finding.ts';
import { mending } from './mending.ts';
import { fastPassages } from './pluck-windows.ts';
import { count } from './words.ts';

/** A passage no hand plays within the stated limits. */
export interface Passage extends Span {
  readonly part: BassPart;
  readonly worst: PlanWindow;
  /** The notes of the worst window, in order. */
  readonly notes: readonly PartNote[];
  readonly windows: number;
}

/** What a code says of a passage: the sentence, and the ways to mend it. */
export interface Verdict {
  readonly message: string;
  readonly fixes: readonly Fix[];
}

/** A check that reports the passages whose worst window has this code. */
export const windowCheck = (code: LimitCode, say: (passage: Passage, stage: PlanStage) => Verdict): Check<'plan'> => ({
  codes: [code],
  needs: 'plan',
  severity: 'error',
  find: (stage) => windowFindings(stage, code, say),
});

/** Passages of one code in a tune whose fixes are tried out: each try is a small search, and a tune with more has another trouble. */
const mostTried = 20;

/** The findings of one code over a plan stage. */
export function windowFindings(
  stage: PlanStage,
  code: LimitCode,
  say: (passage: Passage, stage: PlanStage) => Verdict,
): readonly Finding[] {
  return passagesOf(stage)
    .filter((passage) => passage.worst.code === code)
    .map((passage, i) => {
      const { message, fixes } = say(passage, stage);
      return finding(code, 'error', passage, message + furtherWindows(passage), {
        fixes: i < mostTried ? mending(passage, stage, fixes) : [],
      });
    });
}

const furtherWindows = (passage: Passage): string =>
  passage.windows > 1 ? ` The passage has ${count(passage.windows, 'such place')}; this is the worst.` : '';

/** Passages are found once a stage, however many codes ask. */
const known = new WeakMap<PlanStage, readonly Passage[]>();

export function passagesOf(stage: PlanStage): readonly Passage[] {
  const found = known.get(stage) ?? stage.fingered.flatMap(passagesOfPart);
  known.set(stage, found);
  return found;
}

function passagesOfPart({ part, plan }: FingeredPart): readonly Passage[] {
  const groups: PlanWindow[][] = [];
  for (const window of plan.windows) {
    const group = groups.at(-1);
    if (group?.some((other) => other.notes.some((id) => window.notes.includes(id)))) group.push(window);
    else groups.push([window]);
  }
  return groups.map((group) => passage(part, group)).filter((found) => !isForThePluckingHand(found));
}

/** A passage that the left hand could play at the tempo the right hand needs anyway: `pluck.too-fast` tells it, once. */
const isForThePluckingHand = ({ part, notes, worst }: Passage): boolean =>
  worst.slowdown !== null &&
  fastPassages(part).some(
    (fast) => fast.limitSlowdown >= worst.slowdown! && notes.every((note) => fast.notes.some(({ id }) => id === note.id)),
  );

function passage(part: BassPart, group: readonly PlanWindow[]): Passage {
  const worst = group.reduce((a, b) => (badness(b) > badness(a) ? b : a));
  return {
    part,
    worst,
    from: Math.min(...group.map((window) => window.from)),
    to: Math.max(...group.map((window) => window.to)),
    notes: part.notes.filter((note) => worst.notes.includes(note.id)),
    windows: group.length,
  };
}

/** What no tempo mends is worst; then the greatest slowdown. */
const badness = (window: PlanWindow): number => window.slowdown ?? Number.POSITIVE_INFINITY;
