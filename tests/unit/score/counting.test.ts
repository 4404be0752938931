// How tunes are counted: beats of each meter, pickups, changes of meter; against bars counted by hand.
import { describe, expect, it } from 'vitest';
import { beatsIn, countsOf } from '../../../server/src/score/counting.ts';
import { toText } from '../../../server/src/score/fraction.ts';
import { playOut } from '../../../server/src/score/index.ts';
import { backbeatsOf } from '../../../server/src/score/meter.ts';
import { scoreOf } from '../../support/trees.ts';

/** `place:number` of each beat or step, numbers from 1 as players count. */
function counted(head: string, music: string, by: 'beat' | 'step' = 'beat'): string {
  const score = scoreOf(`X:1\nT:t\nL:1/8\n${head}\nK:C\n${music}\n`);
  const played = playOut(score);
  return beatsIn(countsOf(score, played), played.end, by)
    .map(({ at, index }) => `${toText(at)}:${index + 1}`)
    .join(' ');
}

describe('beats', () => {
  // Simple and compound time as every primer of music theory has them (common practice).
  it.each([
    ['M:4/4', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
    ['M:C', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
    ['M:3/4', 'C6|', '0:1 1/4:2 1/2:3'],
    ['M:2/4', 'C4|', '0:1 1/4:2'],
    ['M:C|', 'C8|', '0:1 1/2:2'],
    ['M:2/2', 'C8|', '0:1 1/2:2'],
    ['M:3/2', 'C12|', '0:1 1/2:2 1:3'],
    ['M:6/8', 'C6|', '0:1 3/8:2'],
    ['M:9/8', 'C9|', '0:1 3/8:2 3/4:3'],
    ['M:12/8', 'C12|', '0:1 3/8:2 3/4:3 9/8:4'],
    ['M:3/8', 'C3|', '0:1 1/8:2 1/4:3'],
    ['M:5/4', 'C10|', '0:1 1/4:2 1/2:3 3/4:4 1:5'],
    ['M:none', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
  ])('are counted in %s', (meter, music, wanted) => expect(counted(meter, music)).toBe(wanted));

  it('of a slow 6/8 are eighths, where its tempo is told in them', () => {
    expect(counted('M:6/8\nQ:1/8=100', 'C6|')).toBe('0:1 1/8:2 1/4:3 3/8:4 1/2:5 5/8:6');
    expect(counted('M:6/8\nQ:3/8=100', 'C6|')).toBe('0:1 3/8:2');
  });

  it('of cut time stay halves, whichever note its tempo is told in', () => {
    expect(counted('M:C|\nQ:1/4=200', 'C8|')).toBe('0:1 1/2:2');
  });

  it('of a pickup are the last of its bar', () => {
    expect(counted('M:4/4', 'C2|C8|')).toBe('0:4 1/4:1 1/2:2 3/4:3 1:4');
    expect(counted('M:4/4', 'C|C8|')).toBe('1/8:1 3/8:2 5/8:3 7/8:4');
    expect(counted('M:6/8', 'C|C6|')).toBe('1/8:1 1/2:2');
  });

  it('go on over a double bar in the middle of a bar, and where a repeat goes back to the pickup', () => {
    expect(counted('M:3/4', 'C6|C4||C2|C6|')).toBe('0:1 1/4:2 1/2:3 3/4:1 1:2 5/4:3 3/2:1 7/4:2 2:3');
    expect(counted('M:3/4', 'C2|C4:|')).toBe('0:3 1/4:1 1/2:2 3/4:3 1:1 5/4:2');
  });

  it('follow the meter where it changes', () => {
    expect(counted('M:4/4', 'C8|[M:6/8]C6|[M:C|]C8|')).toBe('0:1 1/4:2 1/2:3 3/4:4 1:1 11/8:2 7/4:1 9/4:2');
  });

  it('are one count for a tune that is regular, pickup and repeats included', () => {
    const score = scoreOf('X:1\nT:t\nM:4/4\nL:1/8\nK:C\nC2|C8|C6:|C2|C6|]\n');
    expect(countsOf(score, playOut(score))).toHaveLength(1);
  });
});

describe('steps, in which backbeats are counted', () => {
  it.each([
    ['M:4/4', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
    ['M:C|', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
    ['M:2/4', 'C4|', '0:1 1/8:2 1/4:3 3/8:4'],
    ['M:8/8', 'C8|', '0:1 1/4:2 1/2:3 3/4:4'],
    ['M:6/8', 'C6|', '0:1 3/8:2'],
    ['M:6/8\nQ:1/8=100', 'C6|', '0:1 3/8:2'],
    ['M:12/8', 'C12|', '0:1 3/8:2 3/4:3 9/8:4'],
    ['M:3/4', 'C6|', '0:1 1/4:2 1/2:3'],
  ])('%s', (meter, music, wanted) => expect(counted(meter, music, 'step')).toBe(wanted));
});

describe('backbeats', () => {
  it.each([
    ['M:4/4', '1/4 3/4'],
    ['M:2/2', '1/4 3/4'],
    ['M:C|', '1/4 3/4'],
    ['M:2/4', '1/8 3/8'],
    ['M:6/8', '3/8'],
    ['M:12/8', '3/8 9/8'],
    ['M:3/4', ''],
    ['M:9/8', ''],
    ['M:7/8', ''],
    ['M:none', ''],
  ])('%s', (meter, wanted) => {
    const score = scoreOf(`X:1\nT:t\nL:1/8\n${meter}\nK:C\nC8|\n`);
    expect(backbeatsOf(score.meter).map(toText).join(' ')).toBe(wanted);
  });
});
