// version.drift: a version whose parts, bars, meter or key are no longer those of its source. Notes and pickups may differ.
import { driftOf, sourceOf } from '../arrangement/index.ts';
import type { ScoreStage } from '../arrangement/types.ts';
import type { Check } from './check.ts';
import { barProblems } from './shared/bar-sums.ts';
import { finding } from './shared/finding.ts';

export const versionDrift: Check<'part'> = {
  codes: ['version.drift'],
  needs: 'part',
  severity: 'warning',
  find(stage) {
    const source = sourceOf(stage.siblings);
    if (source === null || !canBeCounted(stage) || !canBeCounted(source)) return [];
    return driftOf(source, stage).map((drift) => finding('version.drift', 'warning', drift, drift.message));
  },
};

/** Bars that do not add up, or text that cannot be read, are told by their own codes; until they are mended a count of bars says nothing. */
const canBeCounted = ({ score }: ScoreStage): boolean =>
  score.errors.every(({ severity }) => severity !== 'error') && barProblems(score).length === 0;
