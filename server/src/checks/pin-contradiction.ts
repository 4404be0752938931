// pin.contradiction: pins that exclude each other, or the pitch: a finger on an open string, a string without the note.
import type { PlanStage } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { problemFindings } from './shared/problems.ts';
import { pinsLetGo } from './shared/remedies.ts';
import { type Passage, type Verdict, windowFindings } from './shared/windows.ts';

export const pinContradiction: Check<'plan'> = {
  codes: ['pin.contradiction'],
  needs: 'plan',
  severity: 'error',
  find: (stage) => {
    const told = problemFindings(stage, 'pin.contradiction', 'error');
    return [...told, ...windowFindings(stage, 'pin.contradiction', say).filter((found) => !told.some((other) => overlaps(found, other)))];
  },
};

const say = ({ notes }: Passage, _stage: PlanStage): Verdict => ({
  message: 'What is asked of this note cannot be had together: no string has it under that finger. Let go of the finger or of the string.',
  fixes: pinsLetGo(notes),
});

/** Told already while the part was read: one cause, one finding. The pin stands before its note. */
const overlaps = (a: Finding, b: Finding): boolean => a.from <= b.to + pinGap && b.from <= a.to;
const pinGap = 1;
