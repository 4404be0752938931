// Where the right hand has more attacks than it can make: passages of windows over the attacks as they are played, repeats joined.
import { type Attack, attackRuns, comfortWindow, hardestPlucking, second } from '../../arrangement/index.ts';
import type { BassPart, PartNote } from '../../arrangement/types.ts';

/** A passage of attacks, by index into the part's notes. */
export interface FastPassage {
  readonly notes: readonly PartNote[];
  /** Attacks a second where it is fastest. */
  readonly rate: number;
  readonly level: 'impossible' | 'uncomfortable';
  /** Times longer that the notes must be for the comfortable rate, and for the hard limit (1 if they keep it). */
  readonly comfortSlowdown: number;
  readonly limitSlowdown: number;
}

interface Window {
  readonly indices: readonly number[];
  readonly factor: number;
  readonly kind: 'comfort' | 'limit';
}

/** The passages of a part that are plucked too fast, in order. Needs a tempo; graces are left out, their time is not defined. */
export function fastPassages(part: BassPart): readonly FastPassage[] {
  if (part.tempo === null) return [];
  const comfortable = Math.min(part.setup.pluck, hardestPlucking.attacks);
  const comfort = comfortWindow(part.setup.pluck);
  const windows = attackRuns(part).flatMap((run) => [
    ...crowded(run, comfort.count, comfort.least, 'comfort'),
    ...crowded(run, hardestPlucking.attacks, second, 'limit'),
    ...crowded(run, 1, hardestPlucking.gap, 'limit'),
  ]);
  return merged(windows).map((group) => passage(part, group, comfortable));
}

/** Windows of `count` intervals that take less than `least` microseconds. */
function crowded(run: readonly Attack[], count: number, least: number, kind: Window['kind']): readonly Window[] {
  const found: Window[] = [];
  for (let i = 0; i + count < run.length; i++) {
    const time = run[i + count]!.time - run[i]!.time;
    if (time < least) found.push({ indices: run.slice(i, i + count + 1).map((a) => a.index), factor: least / Math.max(time, 1), kind });
  }
  return found;
}

/** Windows that share an attack, together. */
function merged(windows: readonly Window[]): readonly (readonly Window[])[] {
  const groups: { last: number; windows: Window[] }[] = [];
  for (const window of [...windows].sort((a, b) => Math.min(...a.indices) - Math.min(...b.indices))) {
    const group = groups.at(-1);
    if (group !== undefined && Math.min(...window.indices) <= group.last) {
      group.windows.push(window);
      group.last = Math.max(group.last, ...window.indices);
    } else groups.push({ last: Math.max(...window.indices), windows: [window] });
  }
  return groups.map((group) => group.windows);
}

function passage(part: BassPart, windows: readonly Window[], comfortable: number): FastPassage {
  const indices = [...new Set(windows.flatMap((window) => window.indices))].sort((a, b) => a - b);
  const worst = (kind: Window['kind']): number => Math.max(1, ...windows.filter((w) => w.kind === kind).map((w) => w.factor));
  const limitSlowdown = worst('limit');
  const comfortSlowdown = Math.max(worst('comfort'), limitSlowdown);
  return {
    notes: indices.map((index) => part.notes[index]!),
    rate: comfortable * comfortSlowdown,
    level: limitSlowdown > 1 ? 'impossible' : 'uncomfortable',
    comfortSlowdown,
    limitSlowdown,
  };
}
