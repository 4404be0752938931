// The fingered passages of tests/outside/passages.tsv as tasks, free and as printed. Each row names its published source.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { defaultSetup, makePlayer } from '../../server/src/bass/index.ts';
import type { Finger, Pin, Task } from '../../server/src/fingering/types.ts';

export interface Printed {
  readonly string: number;
  readonly stop: number;
  readonly finger: Finger;
  readonly harmonic: boolean;
}

export interface Passage {
  readonly id: string;
  readonly pitches: readonly number[];
  readonly printed: readonly Printed[];
  /** Changes of hand as counted in the source; null where thumb position leaves it open. */
  readonly changes: number | null;
  readonly source: string;
}

const letters: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

function midi(name: string): number {
  const [, letter, accidental, octave] = /^([A-G])([#b]?)(\d)$/.exec(name)!;
  return letters[letter!]! + (accidental === '#' ? 1 : accidental === 'b' ? -1 : 0) + 12 * (Number(octave) + 1);
}

function place(text: string): Printed {
  const [, string, stop, finger, harmonic] = /^([EADG])(\d+):([0-4T])(h?)$/.exec(text)!;
  return { string: 'GDAE'.indexOf(string!), stop: Number(stop), finger: finger as Finger, harmonic: harmonic === 'h' };
}

/** All passages. */
export const passages: readonly Passage[] = readFileSync(join(import.meta.dirname, '../outside/passages.tsv'), 'utf8')
  .split('\n')
  .slice(1)
  .filter((line) => line !== '')
  .map((line) => {
    const [id, pitches, places, , changes, source] = line.split('\t');
    return {
      id: id!,
      pitches: pitches!.split(' ').map(midi),
      printed: places!.split(' ').map(place),
      changes: changes === '-' ? null : Number(changes),
      source: source!,
    };
  });

const player = makePlayer(defaultSetup);
const free: Pin = { finger: null, string: null, harmonic: false };

/** Notes in a row at an even pace of `step` microseconds. */
export function evenTask(pitches: readonly number[], step: number, pins: readonly Pin[] = []): Task {
  const notes = pitches.map((pitch, i) => ({
    pitches: [pitch],
    onset: i * step,
    duration: step,
    articulation: 'pluck' as const,
    pins: [pins[i] ?? free],
    handStop: null,
    held: [],
  }));
  return { player, notes, jumps: [], breaks: [], timed: 'judged' };
}

/** String and finger pinned as printed; a harmonic by its place, any finger. */
export function printedPins({ printed }: Passage): readonly Pin[] {
  return printed.map(({ string, finger, harmonic }) => ({ string, finger: harmonic ? null : finger, harmonic }));
}
