// Where the right hand has more attacks than it can make: passages of windows over the attacks as they are played, repeats joined.
import { toTask } from '../../arrangement/index.ts';
import type { BassPart, PartNote } from '../../arrangement/types.ts';
import { isPlucked } from './parts.ts';

/** Hard limits of plucking, in attacks in any second and in microseconds between two. Alternate fingers on heavy strings make 6-7 a second for long and 8 in bursts, 8-10 on a pad (tapping: Aoki & Kinoshita 2001; the step to bass strings is a judgement). */
export const hardest = { attacks: 10, gap: 100_000 };

const second = 1_000_000;

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

interface Attack {
  readonly index: number;
  readonly time: number;
}

interface Window {
  readonly indices: readonly number[];
  readonly factor: number;
  readonly kind: 'comfort' | 'limit';
}

/** The passages of a part that are plucked too fast, in order. Needs a tempo; graces are left out, their time is not defined. */
export function fastPassages(part: BassPart): readonly FastPassage[] {
  if (part.tempo === null) return [];
  const comfortable = Math.min(part.setup.pluck, hardest.attacks);
  const windows = runsOf(part).flatMap((run) => [
    ...crowded(run, Math.floor(comfortable), (Math.floor(comfortable) / comfortable) * second, 'comfort'),
    ...crowded(run, hardest.attacks, second, 'limit'),
    ...crowded(run, 1, hardest.gap, 'limit'),
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

/** The attacks as written, and for each jump back or on the attacks around it. */
function runsOf(part: BassPart): readonly (readonly Attack[])[] {
  const task = toTask(part);
  const attacks = part.notes.flatMap((note, index) =>
    isPlucked(note) && note.note.kind === 'note' ? [{ index, time: task.notes[index]!.onset }] : [],
  );
  const written = splitAt(attacks, part.breaks);
  const joined = task.jumps.map(({ from, to, gap }) => {
    const shift = task.notes[from]!.onset + gap - task.notes[to]!.onset;
    const before = attacks.filter((a) => a.index <= from).slice(-hardest.attacks);
    const after = attacks.filter((a) => a.index >= to).slice(0, hardest.attacks);
    return [...before, ...after.map((a) => ({ ...a, time: a.time + shift }))];
  });
  return [...written, ...joined];
}

function splitAt(attacks: readonly Attack[], breaks: readonly number[]): readonly (readonly Attack[])[] {
  const borders = [0, ...breaks, Number.POSITIVE_INFINITY];
  return borders.slice(1).map((to, i) => attacks.filter((a) => a.index >= borders[i]! && a.index < to));
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
