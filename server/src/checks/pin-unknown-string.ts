// pin.unknown-string: a string is asked for that the instrument does not have.
import { problemCheck } from './shared/problems.ts';

export const pinUnknownString = problemCheck('pin.unknown-string', 'warning');
