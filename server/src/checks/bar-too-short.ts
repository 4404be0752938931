// bar.too-short: a bar holds less than its meter asks, a pickup and its complement counted together.

import type { ScoreStage } from '../arrangement/types.ts';
import { barNumber } from '../score/bar-numbers.ts';
import type { Check, Finding, Fix } from './check.ts';
import { type BarProblem, barProblems, musicOf, pickupBeside } from './shared/bar-sums.ts';
import { finding } from './shared/finding.ts';
import { headerField, meterText, meterUnit, steadyUnit, writtenLength } from './shared/meter.ts';
import { inUnits } from './shared/words.ts';

export const barTooShort: Check<'score'> = {
  codes: ['bar.too-short'],
  needs: 'score',
  severity: 'error',
  find: (stage) =>
    barProblems(stage.score)
      .filter((problem) => problem.kind === 'short')
      .map((problem) => shortFinding(stage, problem)),
};

function shortFinding(stage: ScoreStage, problem: BarProblem): Finding {
  const fix = problem.cause.kind === 'split' ? withoutBarLine(problem) : fillWithRest(stage, problem);
  const place = problem.cause.kind === 'meter' ? (headerField(stage.tree, 'M') ?? problem.bar) : musicOf(problem);
  const severity = problem.cause.kind === 'pickup' ? 'warning' : 'error';
  return finding('bar.too-short', severity, place, message(problem), { related: pickupBeside(problem), fixes: fix === null ? [] : [fix] });
}

function message(problem: BarProblem): string {
  const { bar, by, cause } = problem;
  const unit = meterUnit(bar);
  const lack = inUnits(by, unit);
  const asked = `${meterText(bar)} asks for ${inUnits(bar.nominal, unit)}`;
  switch (cause.kind) {
    case 'alone':
      return `Bar ${barNumber(problem.voice, bar.index)} holds ${inUnits(bar.duration, unit)}, ${lack} too little: ${asked}. Lengthen a note or add a rest.`;
    case 'pickup':
      return `Bar ${barNumber(problem.voice, bar.index)} and the pickup after it lack ${lack} together: ${asked}. A pickup and the bar it completes count as one bar.`;
    case 'split':
      return `Bars ${barNumber(problem.voice, bar.index)} and ${barNumber(problem.voice, bar.index) + 1} make one bar of ${meterText(bar)} together. Take the bar line between them out.`;
    case 'meter':
      return `${cause.bars} bars hold ${inUnits(bar.duration, unit)} each, but ${asked}. The meter (M:) or the unit length (L:) does not fit the notes.`;
  }
}

/** The bar line taken out, where it is no more than that. An accidental would then reach over it, so only where the bar has none. */
function withoutBarLine({ bar, voice }: BarProblem): Fix | null {
  const closing = bar.closedBy;
  const altered = voice.notes.some((note) => note.bar === bar.index && note.heads.some((head) => head.accidental !== null));
  if (closing === null || closing.sign !== '|' || altered) return null;
  return { title: 'Take the bar line out', edits: [{ span: { from: closing.from, to: closing.to }, insert: '' }] };
}

/** A rest before the bar line; none where the last note is tied on, or where the unit length is not plain. */
function fillWithRest(stage: ScoreStage, problem: BarProblem): Fix | null {
  const unit = steadyUnit(stage.score, stage.tree);
  const closing = problem.bar.closedBy;
  if (problem.cause.kind === 'meter' || unit === null || closing === null) return null;
  const last = problem.voice.notes.findLast((note) => note.bar === problem.bar.index);
  if (last?.heads.some((head) => head.tieTo !== null)) return null;
  const insert = `z${writtenLength(problem.by, unit)}`;
  return { title: `Fill the bar with a rest (${insert})`, edits: [{ span: { from: closing.from, to: closing.from }, insert }] };
}
