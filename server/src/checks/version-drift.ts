// version.drift: a version whose parts, bars, meter or key are no longer those of its source. Notes and pickups may differ.
import { driftOf, sourceOf } from '../arrangement/index.ts';
import type { Check } from './check.ts';
import { finding } from './shared/finding.ts';

export const versionDrift: Check<'part'> = {
  codes: ['version.drift'],
  needs: 'part',
  severity: 'warning',
  find(stage) {
    const source = sourceOf(stage.siblings);
    if (source === null) return [];
    return driftOf(source, stage).map((drift) => finding('version.drift', 'warning', drift, drift.message));
  },
};
