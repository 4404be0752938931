// The plucking hand's attacks as they are played, and how fast they may follow each other: arithmetic, no part of the search.
import { toTask } from './task.ts';
import type { BassPart, PartNote } from './types.ts';

/** Hard limits of plucking, in attacks in any second and in microseconds between two. Alternate fingers on heavy strings make 6-7 a second for long and 8 in bursts, 8-10 on a pad (tapping: Aoki & Kinoshita 2001; the step to bass strings is a judgement). */
export const hardestPlucking = { attacks: 10, gap: 100_000 };

/** A second in microseconds. */
export const second = 1_000_000;

/** One attack: index into the part's notes, time in microseconds. */
export interface Attack {
  readonly index: number;
  readonly time: number;
}

const plucks = ({ articulation, note }: PartNote): boolean =>
  note.kind === 'note' && (articulation === 'pluck' || articulation === 'scoop' || articulation === 'dead');

/** The attacks as written, and for each jump back or on the attacks around it. Graces are left out, their time is not defined. */
export function attackRuns(part: BassPart): readonly (readonly Attack[])[] {
  const task = toTask(part);
  const attacks = part.notes.flatMap((note, index) => (plucks(note) ? [{ index, time: task.notes[index]!.onset }] : []));
  const joined = task.jumps.map(({ from, to, gap }) => {
    const shift = task.notes[from]!.onset + gap - task.notes[to]!.onset;
    const before = attacks.filter((a) => a.index <= from).slice(-hardestPlucking.attacks);
    const after = attacks.filter((a) => a.index >= to).slice(0, hardestPlucking.attacks);
    return [...before, ...after.map((a) => ({ ...a, time: a.time + shift }))];
  });
  return [...splitAt(attacks, part.breaks), ...joined];
}

function splitAt(attacks: readonly Attack[], breaks: readonly number[]): readonly (readonly Attack[])[] {
  const borders = [0, ...breaks, Number.POSITIVE_INFINITY];
  return borders.slice(1).map((to, i) => attacks.filter((a) => a.index >= borders[i]! && a.index < to));
}

/** The most attacks that a comfortable rate (a second) lets follow each other in whole intervals, and the least time for them in microseconds. */
export function comfortWindow(rate: number): { readonly count: number; readonly least: number } {
  const comfortable = Math.min(rate, hardestPlucking.attacks);
  const count = Math.floor(comfortable);
  return { count, least: (count / comfortable) * second };
}

/** Factors by which the plucking hand lets the part be sped up (over 1) or asks it to slow down; null: nothing in it binds. */
export function pluckingPace(part: BassPart): { readonly comfortable: number | null; readonly limit: number | null } {
  const runs = attackRuns(part);
  const comfort = comfortWindow(part.setup.pluck);
  const least = (...factors: (number | null)[]): number | null => {
    const bound = factors.filter((factor) => factor !== null);
    return bound.length === 0 ? null : Math.min(...bound);
  };
  const limit = least(tightest(runs, hardestPlucking.attacks, second), tightest(runs, 1, hardestPlucking.gap));
  return { comfortable: least(limit, tightest(runs, comfort.count, comfort.least)), limit };
}

/** Least share of `least` microseconds that `count` intervals take anywhere. */
function tightest(runs: readonly (readonly Attack[])[], count: number, least: number): number | null {
  let share: number | null = null;
  for (const run of runs) {
    for (let i = 0; i + count < run.length; i++) {
      const here = (run[i + count]!.time - run[i]!.time) / least;
      if (share === null || here < share) share = here;
    }
  }
  return share;
}
