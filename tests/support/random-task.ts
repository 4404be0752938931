// Random small tasks from a seed: pins, slurs, slides, rests, open strings, double stops, thumb register, repeats and endings.
import { defaultSetup, makePlayer } from '../../server/src/bass/index.ts';
import type { Articulation, Finger, Pin, Task, TaskNote } from '../../server/src/fingering/types.ts';
import type { Sounding } from './brute-force.ts';

export type Random = () => number;

/** A sequence of numbers in [0, 1) that depends on the seed alone (mulberry32). */
export function randomOf(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const player = makePlayer(defaultSetup);
const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
const fingers: readonly Finger[] = ['0', '1', '2', '3', '4', 'T'];

function pinOf(random: Random): Pin {
  const roll = random();
  const string = roll < 0.06 ? Math.floor(random() * 4) : null;
  return { finger: roll > 0.94 ? pick(random, fingers) : null, string, harmonic: false };
}

/** Pitches that move by small steps, now and then by a leap or onto an open string. */
function melody(random: Random, count: number): readonly number[] {
  let pitch = 28 + Math.floor(random() * 30);
  return Array.from({ length: count }, () => {
    const roll = random();
    pitch =
      roll < 0.25 ? pick(random, [28, 33, 38, 43]) : roll < 0.3 ? 28 + Math.floor(random() * 36) : pitch + Math.floor(random() * 9) - 4;
    return Math.min(64, Math.max(28, pitch));
  });
}

/** A task without joins of up to `most` notes. */
export function randomTask(random: Random, most: number): Task {
  const pitches = melody(random, 2 + Math.floor(random() * (most - 1)));
  let onset = 0;
  const notes = pitches.map((pitch, i): TaskNote => {
    const duration = pick(random, [0, 40_000, 90_000, 120_000, 250_000, 500_000]);
    const chord = random() < 0.06 ? [pitch, pitch + pick(random, [5, 7, 8, 9])] : [pitch];
    const before = pitches[i - 1] ?? pitch;
    const slurred: Articulation = pitch > before ? 'hammer' : 'pull';
    const roll = random();
    const articulation: Articulation =
      i === 0 || pitch === before ? 'pluck' : roll < 0.12 ? slurred : roll < 0.16 ? 'glide' : roll < 0.18 ? 'scoop' : 'pluck';
    const note = { pitches: chord, onset, duration, articulation, pins: chord.map(() => pinOf(random)), handStop: null, held: [] };
    onset += duration + (random() < 0.1 ? 200_000 : 0);
    return note;
  });
  return { player, notes, jumps: [], breaks: [], timed: random() < 0.9 ? 'judged' : 'untimed' };
}

/** The same notes with a repeat somewhere, or a repeat with two endings. */
export function withRepeat(random: Random, task: Task): Task {
  const count = task.notes.length;
  const to = Math.floor(random() * count);
  const gap = pick(random, [120_000, 250_000, 500_000]);
  const from = to + Math.floor(random() * (count - to));
  const body = to + Math.floor(random() * (from - to));
  if (random() < 0.5 || from + 1 >= count || body >= from) return { ...task, jumps: [{ from, to, gap }] };
  return {
    ...task,
    jumps: [
      { from, to, gap },
      { from: body, to: from + 1, gap },
    ],
    breaks: [from + 1],
  };
}

/** How such a task sounds when each jump is taken once. */
export function soundingOf({ notes, jumps, breaks }: Task): Sounding {
  const [back, over] = jumps;
  const run = (a: number, b: number) => Array.from({ length: Math.max(0, b - a + 1) }, (_, i) => a + i);
  const last = notes.length - 1;
  const order = back
    ? [...run(0, back.from), ...(over ? [...run(back.to, over.from), ...run(breaks[0]!, last)] : run(back.to, last))]
    : run(0, last);
  const steps = order.slice(1).map((to, i) => {
    const from = order[i]!;
    const jump = jumps.find((one) => one.from === from && one.to === to);
    return jump ? jump.gap : notes[to]!.onset - notes[from]!.onset;
  });
  return { order, steps };
}
