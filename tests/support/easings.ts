// What makes a passage easier and must never make it dearer, nor unplayable, nor give it another window: more time, fewer bonds, a longer hand.
import { makePlayer } from '../../server/src/bass/index.ts';
import type { Fingered, Task, TaskNote, Unplayable } from '../../server/src/fingering/types.ts';
import type { Random } from './random-task.ts';

const withNotes = (task: Task, change: (note: TaskNote, i: number) => TaskNote): Task => ({ ...task, notes: task.notes.map(change) });
const oneOf = (random: Random, { notes }: Task): number => Math.floor(random() * notes.length);

/** One and a half times, twice or three times as slow: whole microseconds stay whole. */
function slower(task: Task, random: Random): Task {
  const factor = [1.5, 2, 3][Math.floor(random() * 3)]!;
  const slow = withNotes(task, (note) => ({ ...note, onset: factor * note.onset, duration: factor * note.duration }));
  return { ...slow, jumps: task.jumps.map((jump) => ({ ...jump, gap: factor * jump.gap })) };
}

function rested(task: Task, random: Random): Task {
  const [from, rest] = [oneOf(random, task), 10_000 * Math.ceil(random() * 60)];
  return withNotes(task, (note, i) => (i < from ? note : { ...note, onset: note.onset + rest }));
}

function unslurred(task: Task, random: Random): Task {
  const bound = task.notes.flatMap((note, i) => (note.articulation === 'pluck' ? [] : [i]));
  const chosen = bound[Math.floor(random() * bound.length)];
  return withNotes(task, (note, i) => (i === chosen ? { ...note, articulation: 'pluck' } : note));
}

function unpinned(task: Task, random: Random): Task {
  const pinned = task.notes.flatMap(({ pins }, i) => (pins.some(({ finger, string }) => finger !== null || string !== null) ? [i] : []));
  const chosen = pinned[Math.floor(random() * pinned.length)];
  return withNotes(task, (note, i) =>
    i === chosen ? { ...note, pins: note.pins.map((pin) => ({ ...pin, finger: null, string: null })) } : note,
  );
}

/**
 * A large hand for a medium one. Every frame of the shorter reach is one of the longer; of the soft terms only the spread of the thumb
 * hand asks for the reach, and falls with it. So the cost cannot rise.
 */
const long = (task: Task): Task => ({ ...task, player: makePlayer({ ...task.player.setup, hand: 'large' }) });

export const easings: readonly (readonly [name: string, ease: (task: Task, random: Random) => Task])[] = [
  ['slower', slower],
  ['a rest added', rested],
  ['a slur or slide taken off', unslurred],
  ['a pin taken off', unpinned],
  ['a longer reach', long],
];

/**
 * What is worse after easing, or null. An eased result that claims no exactness is not compared. Windows are compared where nothing
 * repeats: those of a join are told only where no row has any.
 */
export function worsened({ jumps }: Task, before: Fingered | Unplayable, after: Fingered | Unplayable): string | null {
  if (before.kind === 'fingered') {
    if (after.kind === 'unplayable') return `playable at ${before.cost}, unplayable once eased`;
    return after.exact && after.cost > before.cost ? `costs ${before.cost}, once eased ${after.cost}` : null;
  }
  if (after.kind === 'fingered' || jumps.length > 0) return null;
  const fresh = after.windows.find((one) => !before.windows.some(({ first, last }) => one.first <= first && last <= one.last));
  return fresh === undefined ? null : `notes ${fresh.first} to ${fresh.last} become a window once eased`;
}
