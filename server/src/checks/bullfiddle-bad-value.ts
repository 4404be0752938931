// bullfiddle.bad-value: a declaration whose value cannot be used.
import { problemCheck } from './shared/problems.ts';

export const bullfiddleBadValue = problemCheck('bullfiddle.bad-value', 'warning');
