// What a window is blamed on, taken away from the task and the player themselves: not by the engine's own lifting of limits.
import { makePlayer } from '../../server/src/bass/index.ts';
import type { FrameRule, Player } from '../../server/src/bass/types.ts';
import type { LimitCode, Task, TaskNote } from '../../server/src/fingering/types.ts';

/** The notes of a window alone, without what its codes name. Ask the engine with tables of their own: players are told apart by their setup. */
export function withoutCauses(task: Task, first: number, last: number, codes: readonly LimitCode[]): Task {
  const alone: Task = { ...task, notes: task.notes.slice(first, last + 1), jumps: [], breaks: [] };
  return codes.reduce((left, code) => without[code](left), alone);
}

const withNotes = (task: Task, change: (note: TaskNote) => TaskNote): Task => ({ ...task, notes: task.notes.map(change) });
const withLimits = (task: Task, limits: Partial<Player['limits']>): Task => ({
  ...task,
  player: { ...task.player, limits: { ...task.player.limits, ...limits } },
});

const plucked = (task: Task, ways: readonly string[]): Task =>
  withNotes(task, (note) => (ways.includes(note.articulation) ? { ...note, articulation: 'pluck' } : note));
const unslurred = (task: Task): Task => plucked(task, ['hammer', 'pull']);
const unslid = (task: Task): Task => plucked(task, ['glide', 'scoop']);
const unpinned = (task: Task): Task =>
  withNotes(task, (note) => ({ ...note, handStop: null, pins: note.pins.map(() => ({ finger: null, string: null, harmonic: false })) }));
const inRange = (pitch: number): boolean => pitch >= 28 && pitch <= 67;
/** Heads that a bass has; where there are none, the open string below. */
const within = (task: Task): Task =>
  withNotes(task, (note) => {
    const kept = note.pitches.flatMap((pitch, i) => (inRange(pitch) ? [{ pitch, pin: note.pins[i]! }] : []));
    return kept.length === 0
      ? { ...note, pitches: [28], pins: [{ finger: null, string: null, harmonic: false }], articulation: 'pluck' }
      : { ...note, pitches: kept.map(({ pitch }) => pitch), pins: kept.map(({ pin }) => pin) };
  });

const widest = 12;
/** Every finger above the hand's place at every offset up to an octave. */
function wideFrames({ frames, setup }: Player): readonly FrameRule[] {
  return frames.flatMap((rule) =>
    rule.offset === 0
      ? [rule]
      : Array.from({ length: widest }, (_, i) => ({
          ...rule,
          offset: i + 1,
          fromPlace: Math.min(rule.fromPlace, 7),
          limit: null,
          toStop: setup.top,
        })).map((wide) => (rule.kind === 'neck' ? { ...wide, fromPlace: 1 } : wide)),
  );
}
const reaching = (task: Task): Task => ({ ...task, player: { ...task.player, frames: wideFrames(makePlayer(task.player.setup)) } });

const without: Readonly<Record<LimitCode, (task: Task) => Task>> = {
  'range.too-low': within,
  'range.too-high': within,
  'range.off-board': unpinned,
  'harmonic.no-node': unpinned,
  'thumb.too-low': unpinned,
  'pin.contradiction': unpinned,
  'finger.not-in-frame': (task) => (task.notes.length === 1 ? unpinned(task) : reaching(task)),
  'reach.too-wide': reaching,
  'shift.too-far': (task) =>
    withLimits(task, { acceleration: { limit: Number.POSITIVE_INFINITY, comfortable: Number.POSITIVE_INFINITY }, thumbInOut: 0 }),
  'hop.too-fast': (task) => withLimits(task, { hop: 0 }),
  'hammer.crosses-strings': unslurred,
  'pull.wrong-direction': unslurred,
  'slur.same-pitch': unslurred,
  'slide.open-string': unslid,
  'slide.crosses-strings': unslid,
};
