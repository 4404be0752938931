// bullfiddle.unknown-key: a key of `I:bullfiddle` that means nothing.
import { problemCheck } from './shared/problems.ts';

export const bullfiddleUnknownKey = problemCheck('bullfiddle.unknown-key', 'warning');
