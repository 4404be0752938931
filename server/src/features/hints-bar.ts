// The sum of the bar being written: how much of it is there.
import type { ScoreStage } from '../arrangement/types.ts';
import { compare, toText, ZERO } from '../score/fraction.ts';
import type { Bar, Fraction } from '../score/types.ts';
import type { Feature } from './feature.ts';
import type { Hint } from './hint.ts';

/** There is one question: the whole tune. A bar that nothing closes yet shows its sum; a full one does not. */
export const barHints: Feature<'score', null, readonly Hint[]> = {
  needs: 'score',
  answer(stage, _question, { hints }) {
    if (hints.barSum === 'off') return [];
    return stage.score.voices.flatMap((voice) => openBar(stage, voice.bars.at(-1)) ?? []);
  },
};

function openBar(stage: ScoreStage, bar: Bar | undefined): Hint | null {
  if (bar === undefined || bar.closedBy !== null || bar.nominal === null) return null;
  if (compare(bar.duration, ZERO) === 0 || compare(bar.duration, bar.nominal) === 0) return null;
  const unit = bar.meter.kind === 'none' ? 4 : bar.meter.unit;
  const at = bar.from + stage.text.slice(bar.from, bar.to).trimEnd().length;
  return { at, side: 'after', text: `${inUnits(bar.duration, unit)} of ${inUnits(bar.nominal, unit)}` };
}

/** `3/4`; with a finer part where the unit does not divide it. */
function inUnits(length: Fraction, unit: number): string {
  const count = (length.num * unit) / length.den;
  return Number.isInteger(count) ? `${count}/${unit}` : toText(length);
}
