// Lengths, nodes and tunings against tables and closed formulas from outside.
import { note } from '@tonaljs/pitch-note';
import { expect, it } from 'vitest';
import { frequency, nodes, spanMm, stopMm, tuningNamed, tuningOf } from '../../server/src/bass/index.ts';

it('stops lie where the rule of the twelfth root of two puts them (table for 1050 mm, computed from the closed formula)', () => {
  const table = [
    0, 59, 115, 167, 217, 263, 308, 349, 389, 426, 461, 494, 525, 555, 582, 609, 633, 657, 679, 700, 719, 738, 755, 772, 788, 802, 816, 829,
    842,
  ];
  // One printed figure, 555 at stop 13, is rounded up from 554.46: hence a little over half a millimetre.
  table.forEach((mm, stop) => {
    expect(Math.abs(stopMm(1050, stop) - mm), `stop ${stop}`).toBeLessThan(0.55);
  });
});

it.each([
  [1100, [113, 107, 101, 95, 90, 85, 80, 76, 71, 67], [165, 156, 147, 139, 131, 124, 117, 110, 104, 98]],
  [1080, [111, 105, 99, 94, 88, 83, 79, 74, 70, 66], [162, 153, 144, 136, 129, 122, 115, 108, 102, 96]],
  [1060, [109, 103, 97, 92, 87, 82, 77, 73, 69, 65], [159, 150, 142, 134, 126, 119, 113, 106, 100, 95]],
  [1050, [108, 102, 96, 91, 86, 81, 76, 72, 68, 64], [158, 149, 140, 133, 125, 118, 111, 105, 99, 94]],
  [1040, [107, 101, 95, 90, 85, 80, 76, 71, 67, 64], [156, 147, 139, 131, 124, 117, 110, 104, 98, 93]],
  [975, [100, 95, 89, 84, 80, 75, 71, 67, 63, 60], [146, 138, 130, 123, 116, 110, 104, 98, 92, 87]],
  [900, [93, 87, 83, 78, 74, 69, 66, 62, 58, 55], [135, 128, 120, 114, 107, 101, 96, 90, 85, 80]],
])('whole tones and minor thirds from 1 to 4 at %i mm (table computed from the closed formula)', (mensur, tones, thirds) => {
  expect(tones.map((_, i) => Math.round(spanMm(mensur, i + 1, i + 3)))).toEqual(tones);
  expect(thirds.map((_, i) => Math.round(spanMm(mensur, i + 1, i + 4)))).toEqual(thirds);
});

it('nodes of parts 2 to 6 lie where -12 log2(1 - k/n) puts them (Hugill, The Orchestra: a user’s manual, names the nodes; stops computed)', () => {
  const stops = (part: number) => nodes.filter((node) => node.part === part).map(({ stop }) => Number(stop.toFixed(2)));
  expect(stops(2)).toEqual([12]);
  expect(stops(3)).toEqual([7.02, 19.02]);
  expect(stops(4)).toEqual([4.98, 24]);
  expect(stops(5)).toEqual([3.86, 8.84, 15.86, 27.86]);
  expect(stops(6)).toEqual([3.16, 31.02]);
});

it('open strings have the pitch and frequency that another library gives them', () => {
  const expected: Readonly<Record<string, readonly string[]>> = {
    standard: ['G2', 'D2', 'A1', 'E1'],
    solo: ['A2', 'E2', 'B1', 'F#1'],
    fifths: ['A2', 'D2', 'G1', 'C1'],
    'five-low-b': ['G2', 'D2', 'A1', 'E1', 'B0'],
    'five-high-c': ['C3', 'G2', 'D2', 'A1', 'E1'],
    'drop-d': ['G2', 'D2', 'A1', 'D1'],
  };
  for (const [name, pitches] of Object.entries(expected)) {
    const { strings } = tuningNamed(name)!;
    expect(
      strings.map(({ open }) => open),
      name,
    ).toEqual(pitches.map((pitch) => note(pitch).midi));
    strings.forEach(({ open }, i) => {
      expect(frequency(open)).toBeCloseTo(note(pitches[i]!).freq!, 9);
    });
  }
  expect(frequency(28)).toBeCloseTo(41.203, 3);
});

it('reads a tuning from pitches in any order, and refuses what is none', () => {
  expect(tuningOf('D1 A1 D2 G2')!.strings.map(({ open }) => open)).toEqual([43, 38, 33, 26]);
  expect(tuningOf('E1 E1')).toBeNull();
  expect(tuningOf('H1 A1')).toBeNull();
  expect(tuningOf('')).toBeNull();
  expect(tuningNamed('constructor')).toBeNull();
});
