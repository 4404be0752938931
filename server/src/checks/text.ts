// text.*: where the text is not what the standard says, passed on from reading.
import type { Score } from '../score/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';

export const text: Check<'score'> = {
  codes: ['text.*'],
  needs: 'score',
  severity: 'error',
  find: ({ score }) => errorsOf(score),
};

const errorsOf = (score: Score): readonly Finding[] =>
  score.errors.map((error) => finding(error.code, error.severity, error.span, error.message));
