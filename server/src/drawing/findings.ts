// Findings on the picture: a band behind the notes concerned on the staff, and one behind their stops on the tab.
import type { EngravedSystem, SceneFinding } from '../engraving/types.ts';
import type { Shape } from './shapes.ts';
import { highestInk } from './skyline.ts';

/** A band with what it says and how grave it is. */
export type FindingShape = Extract<Shape, { kind: 'rect' }> & { readonly severity: SceneFinding['severity'] };

const beside = 7;
/** Beyond the middle of a head above or below the staff. */
const overHead = 7;
const overTab = 7;

interface Run {
  readonly staff: number;
  readonly from: number;
  readonly to: number;
  /** y of the highest and the lowest head. */
  readonly high: number;
  readonly low: number;
}

/** Stretches of x of a staff, with no other note of the voice between, that a finding covers. */
function runsOf(system: EngravedSystem, finding: SceneFinding): Run[] {
  const covered = new Set(finding.notes);
  const runs: Run[] = [];
  let run: { -readonly [K in keyof Run]: Run[K] } | null = null;
  for (const note of system.notes) {
    const x = note.heads[0]?.x;
    if (x === undefined || note.match === null) continue;
    if (!covered.has(note.match.note.id)) {
      run = null;
      continue;
    }
    if (run === null || run.staff !== note.staff) {
      run = { staff: note.staff, from: x - beside, to: x + beside, high: Number.POSITIVE_INFINITY, low: Number.NEGATIVE_INFINITY };
      runs.push(run);
    }
    run.to = Math.max(run.to, x + beside);
    for (const { y } of note.heads) {
      run.high = Math.min(run.high, y);
      run.low = Math.max(run.low, y);
    }
  }
  return runs;
}

/** Bands for all findings of a system. `tabBottoms` holds the y of the lowest tab line under each staff, null without tab. */
export function drawFindings(
  system: EngravedSystem,
  findings: readonly SceneFinding[],
  tabs: readonly ({ readonly top: number; readonly bottom: number } | null)[],
): readonly FindingShape[] {
  return findings.flatMap((finding) =>
    runsOf(system, finding).flatMap(({ staff, from, to, high, low }): FindingShape[] => {
      const { top, bottom, ink } = system.staffs[staff]!;
      const tab = tabs[staff] ?? null;
      const band = (y1: number, y2: number): FindingShape => ({
        kind: 'rect',
        role: 'finding',
        ink: 'plain',
        source: { from: finding.from, to: finding.to },
        note: finding.notes[0] ?? null,
        spoken: finding.message,
        severity: finding.severity,
        x: from,
        y: y1,
        w: to - from,
        h: y2 - y1,
      });
      const highest = Math.min(Math.max(top - 14, highestInk(ink, top)), high - overHead);
      const lowest = Math.max(bottom + 10, low + overHead);
      if (tab === null) return [band(highest, lowest)];
      return [band(highest, Math.min(lowest, tab.top - overTab)), band(tab.top - overTab, tab.bottom + overTab)];
    }),
  );
}
