// Problems that reading a part already found, as findings.
import type { PartProblem, PartStage } from '../../arrangement/types.ts';
import type { Check, Finding, Severity } from '../check.ts';
import { finding } from './finding.ts';

/** A check that passes on the part problems of one code. */
export const problemCheck = (code: PartProblem['code'], severity: Severity): Check<'part'> => ({
  codes: [code],
  needs: 'part',
  severity,
  find: (stage) => problemFindings(stage, code, severity),
});

export const problemFindings = (stage: PartStage, code: PartProblem['code'], severity: Severity): readonly Finding[] =>
  stage.parts
    .flatMap((part) => part.problems)
    .filter((problem) => problem.code === code)
    .map((problem) => finding(code, severity, problem, problem.message, { fixes: problem.fix === null ? [] : [problem.fix] }));
