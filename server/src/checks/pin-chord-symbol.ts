// pin.chord-symbol: `"sul G"` without a placement sign is a chord symbol by the standard, not a choice of string.
import { problemCheck } from './shared/problems.ts';

export const pinChordSymbol = problemCheck('pin.chord-symbol', 'warning');
