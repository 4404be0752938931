// Passages that no hand plays: the limit is named with its figures, the window is minimal, and adversarial tasks never throw.
import { describe, expect, it } from 'vitest';
import { defaultSetup, makePlayer } from '../../../server/src/bass/index.ts';
import { makeTables, startSearch } from '../../../server/src/fingering/index.ts';
import type { Articulation, Finger, Pin, Task, Unplayable } from '../../../server/src/fingering/types.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
const player = makePlayer(defaultSetup);
interface Given {
  readonly pitch: number | readonly number[];
  readonly finger?: Finger;
  readonly string?: number;
  readonly by?: Articulation;
  readonly harmonic?: boolean;
}
const [G, D, A] = [0, 1, 2];

function taskOf(given: readonly Given[], step = 500_000): Task {
  const notes = given.map(({ pitch, finger, string, by, harmonic }, i) => {
    const pitches = typeof pitch === 'number' ? [pitch] : pitch;
    const pin: Pin = { finger: finger ?? null, string: string ?? null, harmonic: harmonic ?? false };
    return {
      pitches,
      onset: i * step,
      duration: step,
      articulation: by ?? ('pluck' as const),
      pins: pitches.map(() => pin),
      handStop: null,
      held: [],
    };
  });
  return { player, notes, jumps: [], breaks: [], timed: 'judged' };
}

function refused(task: Task): Unplayable {
  const result = rechecked(task, tables);
  if (result.kind !== 'unplayable') throw new Error('judged playable');
  return result;
}

describe('names the limit', () => {
  it('a hammer-on of a low minor third is too wide for the hand', () => {
    const { windows } = refused(
      taskOf([
        { pitch: 44, string: G },
        { pitch: 47, string: G, by: 'hammer' },
      ]),
    );
    expect(windows).toEqual([
      { first: 0, last: 1, code: 'reach.too-wide', also: [], needed: 157.7, available: 126, unit: 'mm', slowdown: null },
    ]);
  });
  it.each<[string, readonly Given[], string]>([
    ['a slur into the open string above', [{ pitch: 41 }, { pitch: 43, finger: '0', by: 'hammer' }], 'hammer.crosses-strings'],
    [
      'a pull-off to a higher finger',
      [
        { pitch: 50, string: G, finger: '1' },
        { pitch: 48, string: G, finger: '4', by: 'pull' },
      ],
      'pull.wrong-direction',
    ],
    [
      'a slur on one pitch',
      [
        { pitch: 45, string: G },
        { pitch: 45, string: G, by: 'hammer' },
      ],
      'slur.same-pitch',
    ],
    [
      'a slide from the open string',
      [
        { pitch: 43, finger: '0' },
        { pitch: 47, by: 'glide' },
      ],
      'slide.open-string',
    ],
    [
      'a slide across strings',
      [
        { pitch: 40, string: D },
        { pitch: 47, string: G, by: 'glide' },
      ],
      'slide.crosses-strings',
    ],
    ['a note below the lowest string', [{ pitch: 20 }], 'range.too-low'],
    ['a note over the highest stop', [{ pitch: 90 }], 'range.too-high'],
    ['a pitch beyond the end of its string', [{ pitch: 64, string: A }], 'range.off-board'],
    ['an open finger on a stopped pitch', [{ pitch: 44, finger: '0' }], 'pin.contradiction'],
    ['a thumb at stop 3', [{ pitch: 46, finger: 'T', string: G }], 'thumb.too-low'],
    ['a harmonic where no node sounds', [{ pitch: 44, harmonic: true }], 'harmonic.no-node'],
    ['two low notes no hand takes at once', [{ pitch: [29, 34] }, { pitch: [28, 29] }], 'reach.too-wide'],
  ])('%s', (_, given, code) => {
    expect(refused(taskOf(given)).windows.map((window) => window.code)).toEqual([code]);
  });
  it('a leap too far for its time, with the least slowdown that makes it playable', () => {
    const leap = (step: number) =>
      taskOf(
        [
          { pitch: 44, string: G, finger: '1' },
          { pitch: 60, string: G, finger: '1' },
        ],
        step,
      );
    const [window] = refused(leap(150_000)).windows;
    expect(window).toMatchObject({ first: 0, last: 1, code: 'shift.too-far', unit: 'ms' });
    expect(window!.needed).toBeGreaterThan(window!.available);
    expect(rechecked(leap(Math.ceil(150_000 * window!.slowdown!) + 4), tables).kind).toBe('fingered');
    expect(rechecked(leap(Math.floor(150_000 * window!.slowdown!) - 4), tables).kind).toBe('unplayable');
  });
});

it('takes a harmonic at the octave with any finger', () => {
  const result = rechecked(taskOf([{ pitch: 55, string: G, harmonic: true }]), tables);
  expect(result.kind === 'fingered' && result.placings[0]!.places[0]).toMatchObject({ stop: 12, harmonic: true });
});

it('can be worked on in slices with the same answer', () => {
  const task = taskOf(Array.from({ length: 200 }, (_, i) => ({ pitch: 33 + ((i * 7) % 19) })));
  const whole = rechecked(task, tables);
  const sliced = startSearch(task, makeTables(32e6));
  let steps = 0;
  let result = sliced.step(1000);
  for (; result.kind === 'running'; result = sliced.step(1000)) steps++;
  expect(steps).toBeGreaterThan(20);
  expect(result.kind === 'fingered' && whole.kind === 'fingered' && result.cost === whole.cost).toBe(true);
});

it('never throws on times that make no sense, nor on nothing', () => {
  for (const step of [0, 1]) expect(() => rechecked(taskOf([{ pitch: 44 }, { pitch: 50 }, { pitch: 61 }], step), tables)).not.toThrow();
  expect(rechecked(taskOf([]), tables).kind).toBe('fingered');
});
