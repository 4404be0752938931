// Passages that try an engine: what is nearly impossible, what makes no sense, what is very long, and other instruments. Each result is rechecked.
import { describe, expect, it } from 'vitest';
import { defaultSetup, makePlayer, tuningNamed, tuningNames } from '../../../server/src/bass/index.ts';
import { makeTables, search } from '../../../server/src/fingering/index.ts';
import type { Finger, Pin, Task } from '../../../server/src/fingering/types.ts';
import { evenTask } from '../../support/passages.ts';
import { randomOf, randomTask, withRepeat } from '../../support/random-task.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
const [G, D] = [0, 1];
const pin = (string: number | null, finger: Finger | null = null): Pin => ({ finger, string, harmonic: false });

/** `fingered`, or the codes of the windows. */
function verdictOn(task: Task): string {
  const result = rechecked(task, tables);
  return result.kind === 'fingered' ? 'fingered' : result.windows.map(({ code }) => code).join(' ');
}

describe('time', () => {
  it('fourths in fast succession: one finger needs 70 ms to hop between strings, and a thumb laid across needs none', () => {
    const low = [40, 45, 40, 45];
    const onTwo = low.map((pitch) => pin(pitch === 40 ? D : G));
    expect(verdictOn(evenTask(low, 80_000, onTwo))).toBe('fingered');
    expect(verdictOn(evenTask(low, 60_000, onTwo))).toBe('hop.too-fast hop.too-fast hop.too-fast');
    expect(
      verdictOn(
        evenTask(
          [50, 55, 50, 55],
          60_000,
          onTwo.map(({ string }) => pin(string, 'T')),
        ),
      ),
    ).toBe('fingered');
  });
  it('octave leaps, slow and far too fast', () => {
    const leaps = [32, 44, 56, 44, 32];
    expect(verdictOn(evenTask(leaps, 300_000))).toBe('fingered');
    expect(verdictOn(evenTask(leaps, 60_000))).toContain('shift.too-far');
  });
  it('open strings give the hand their time on the way into thumb position', () => {
    expect(verdictOn(evenTask([44, 62], 150_000, [pin(G)]))).toBe('shift.too-far');
    expect(verdictOn(evenTask([44, 43, 38, 33, 62], 150_000, [pin(G)]))).toBe('fingered');
  });
  it('a grace shorter than a note must be held leaves no time for a shift, but may lie under the hand', () => {
    const grace = (pins: readonly Pin[]): Task => evenTask([44, 46], 20_000, pins);
    expect(verdictOn(grace([pin(G, '1'), pin(G, '1')]))).toBe('shift.too-far');
    expect(verdictOn(grace([]))).toBe('fingered');
  });
  it('no time at all: one hand, or no way', () => {
    expect(verdictOn(evenTask([44, 46, 44], 0))).toBe('fingered');
    expect(verdictOn(evenTask([44, 62], 0, [pin(G)]))).toBe('shift.too-far');
  });
  it('scales at 400 to the quarter', () => {
    const scale = [31, 33, 35, 36, 38, 40, 42, 43, 45, 47, 48, 50];
    expect(verdictOn(evenTask([...scale, ...scale.toReversed()], 75_000))).toBe('fingered');
  });
});

describe('pins that speak against each other', () => {
  it.each<[string, Task, string]>([
    ['finger 4 where none stands', evenTask([44], 250_000, [pin(3, '4')]), 'finger.not-in-frame'],
    ['a stopped finger on the open string', evenTask([43], 250_000, [pin(G, '1')]), 'pin.contradiction'],
    ['a string below whose open pitch the note lies', evenTask([40], 250_000, [pin(G)]), 'pin.contradiction'],
  ])('%s', (_, task, code) => {
    expect(verdictOn(task)).toBe(code);
  });
  it('a slide that ends on the open string', () => {
    const { notes, ...rest } = evenTask([47, 43], 250_000, [pin(G), pin(G, '0')]);
    expect(verdictOn({ ...rest, notes: notes.map((note, i) => (i === 1 ? { ...note, articulation: 'glide' } : note)) })).toBe(
      'slide.open-string',
    );
  });
});

it('ten thousand notes, easy and at 400 to the quarter', () => {
  const pitches = Array.from({ length: 10_000 }, (_, i) => 33 + ((i * 7) % 19));
  const slow = search(evenTask(pitches, 300_000), tables);
  expect(slow.kind === 'fingered' && slow.placings.length).toBe(10_000);
  const fast = search(evenTask(pitches, 75_000), tables);
  expect(fast.kind === 'fingered' && fast.placings.length).toBe(10_000);
});

it.each(tuningNames.flatMap((name) => [900, 1000, 1100].map((mensur) => [name, mensur] as const)))(
  'tuning %s at %i mm: results hold, repeats included',
  (name, mensur) => {
    const player = makePlayer({ ...defaultSetup, tuning: tuningNamed(name)!, mensur });
    const random = randomOf(mensur);
    for (let i = 0; i < 6; i++) {
      const task = randomTask(random, 6);
      expect(() => rechecked({ ...(i % 2 === 0 ? task : withRepeat(random, task)), player }, tables)).not.toThrow();
    }
  },
);

it('a section that starts on open strings, after low notes the first time and after high ones the second', () => {
  const task = evenTask([35, 36, 43, 38, 45, 57, 59, 35], 200_000);
  expect(verdictOn({ ...task, jumps: [{ from: 6, to: 2, gap: 200_000 }] })).toBe('fingered');
});
