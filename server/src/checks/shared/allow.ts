// `I:bullfiddle allow=CODE`: findings that the tune asks not to be told, from the file, the tune, a voice, or a place on.
import type { Instruction, Score, Voice } from '../../score/types.ts';
import type { Span } from '../../text/span.ts';
import type { Finding } from '../check.ts';

/** Codes silenced within a stretch of a voice; null: in the whole tune. */
export interface Allowance {
  readonly codes: readonly string[];
  readonly voice: Voice | null;
  readonly from: number;
}

export const allowances = (score: Score): readonly Allowance[] =>
  score.voices.flatMap((voice) => voice.instructions.flatMap((i) => allowance(i, voice)));

function allowance(instruction: Instruction, voice: Voice): readonly Allowance[] {
  if (instruction.name !== 'bullfiddle') return [];
  const codes = instruction.keyed.filter(({ key }) => key === 'allow').flatMap(({ value }) => value.split(',').map((code) => code.trim()));
  if (codes.length === 0) return [];
  const whole = instruction.scope === 'file' || instruction.scope === 'tune';
  const from = instruction.scope === 'inline' ? instruction.from : Number.NEGATIVE_INFINITY;
  return [{ codes, voice: whole ? null : voice, from }];
}

/** Whether a finding is silenced: by its code or its family. */
export const isAllowed = (found: Finding, allowed: readonly Allowance[]): boolean =>
  allowed.some(
    ({ codes, voice, from }) =>
      codes.some((code) => code === found.code || found.code.startsWith(`${code}.`)) &&
      found.from >= from &&
      (voice === null || voice.bars.some((bar) => overlap(bar, found))),
  );

const overlap = (a: Span, b: Span): boolean => a.from < b.to && b.from < a.to;
