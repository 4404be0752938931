// bar.too-long: a bar holds more than its meter asks, a pickup and its complement counted together.

import type { ScoreStage } from '../arrangement/types.ts';
import { barNumber } from '../score/bar-numbers.ts';
import { add, equal, mul } from '../score/fraction.ts';
import type { ScoreNote } from '../score/types.ts';
import type { Check, Finding, Fix, Severity } from './check.ts';
import { type BarProblem, barProblems, musicOf, pickupBeside } from './shared/bar-sums.ts';
import { finding } from './shared/finding.ts';
import { headerField, meterText, meterUnit } from './shared/meter.ts';
import { inUnits } from './shared/words.ts';

export const barTooLong: Check<'score'> = {
  codes: ['bar.too-long'],
  needs: 'score',
  severity: 'error',
  find: (stage) =>
    barProblems(stage.score)
      .filter((problem) => problem.kind === 'long')
      .map((problem) => longFinding(stage, problem)),
};

function longFinding(stage: ScoreStage, problem: BarProblem): Finding {
  const fix = insertBarLine(stage, problem);
  const place = problem.cause.kind === 'meter' ? (headerField(stage.tree, 'M') ?? problem.bar) : musicOf(problem);
  return finding('bar.too-long', severityOf(problem), place, message(problem), {
    related: pickupBeside(problem),
    fixes: fix === null ? [] : [fix],
  });
}

/** A full bar before a repeated pickup is a habit of many tune books: worth a word, not an error. */
const severityOf = (problem: BarProblem): Severity => (problem.cause.kind === 'pickup' ? 'info' : 'error');

function message(problem: BarProblem): string {
  const { bar, by, cause } = problem;
  const unit = meterUnit(bar);
  const surplus = inUnits(by, unit);
  const asked = `${meterText(bar)} asks for ${inUnits(bar.nominal, unit)}`;
  switch (cause.kind) {
    case 'alone':
    case 'split':
      return `Bar ${barNumber(problem.voice, bar.index)} holds ${inUnits(bar.duration, unit)}, ${surplus} too much: ${asked}. Shorten a note, or put in the bar line that is missing.`;
    case 'pickup':
      return `Bar ${barNumber(problem.voice, bar.index)} and the pickup it goes back to make ${surplus} too much together: ${asked}. Shorten the bar by the pickup, so that the repeat keeps the beat.`;
    case 'meter':
      return `${cause.bars} bars hold ${inUnits(bar.duration, unit)} each, but ${asked}. The meter (M:) or the unit length (L:) does not fit the notes.`;
  }
}

/** A bar line where the bar is full, if a note begins there, what is left is a full bar, and no accidental reaches over it. */
function insertBarLine(stage: ScoreStage, problem: BarProblem): Fix | null {
  const { bar, voice, cause } = problem;
  const isTwoBars = equal(bar.duration, mul(bar.nominal, { num: 2, den: 1 }));
  if (cause.kind !== 'alone' || !isTwoBars) return null;
  const notes = voice.notes.filter((note) => note.bar === bar.index && note.layer === 0);
  const second = notes.findIndex((note) => equal(note.onset, add(bar.onset, bar.nominal)));
  const [before, after] = [notes[second - 1], notes[second]];
  if (before === undefined || after === undefined || notes.slice(0, second).some(hasAccidental)) return null;
  const at = gapAfter(stage.text, before.to, after.from);
  return at === null ? null : { title: 'Put in a bar line', edits: [{ span: { from: at, to: at }, insert: '|' }] };
}

const hasAccidental = (note: ScoreNote): boolean => note.heads.some((head) => head.accidental !== null);

/** Where a bar line can stand between two notes: after a tie or a slur's end, before the marks of the next note. */
function gapAfter(text: string, from: number, to: number): number | null {
  const between = text.slice(from, to);
  if (/[<>\n(]/.test(between)) return null;
  return from + (/^[-)]*/.exec(between)?.[0].length ?? 0);
}
