// What is practised: bars and tempos chosen from a fingering, and tracks of them laid out in time.
import { describe, expect, it } from 'vitest';
import { allBars, clockText, partBars, secondsOf, suggestedFocus, suggestedTempos } from '../../../server/src/handout/practice.ts';
import { secondsAt, timelineOf } from '../../../server/src/handout/sound/timeline.ts';
import { toNumber } from '../../../server/src/score/fraction.ts';
import { demoBook, handoutTunes, practice } from '../../support/handout.ts';

const short = 'X:1\nT:Up\nM:4/4\nL:1/4\nQ:1/4=120\nK:C clef=bass\nP:A\n|:C,D,E,F,|G,A,B,C:|\nP:B\nE,4|G,4|]\n';
const tune = handoutTunes(short)[0]!;
const pickup = handoutTunes('X:1\nT:P\nM:4/4\nL:1/4\nQ:1/4=60\nK:C clef=bass\nG,|C,D,E,F,|G,4|]\n')[0]!;

describe('timelineOf', () => {
  it('plays bars after a count-in of full bars', () => {
    const timeline = timelineOf(pickup, { ...practice, bars: { first: 1, last: 1 } });
    expect(timeline.notes.map((note) => [toNumber(note.onset), note.midi])).toEqual([
      [1, 36],
      [1.25, 38],
      [1.5, 40],
      [1.75, 41],
    ]);
    expect(toNumber(timeline.end)).toBe(2);
    expect(secondsAt(timeline, timeline.end)).toBe(8);
  });

  it('leaves out a repeat between the bars asked', () => {
    const timeline = timelineOf(tune, { ...practice, countIn: 0, bars: { first: 2, last: 3 } });
    expect(timeline.notes.map((note) => toNumber(note.onset))).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(toNumber(timeline.end)).toBe(2);
  });

  it('plays steps of tempo one after the other, each counted in', () => {
    const timeline = timelineOf(pickup, { ...practice, steps: [0.5, 1], bars: { first: 1, last: 1 } });
    expect(timeline.clicks.map((click) => toNumber(click.onset))).toEqual([0, 0.25, 0.5, 0.75, 2, 2.25, 2.5, 2.75]);
    expect(timeline.tempos.map(({ onset, quarters }) => [toNumber(onset), quarters])).toEqual([
      [0, 30],
      [2, 60],
    ]);
    expect(secondsAt(timeline, timeline.end)).toBe(16 + 8);
  });
});

describe('practice', () => {
  it('finds the bars of a part, and of the tune', () => {
    expect(partBars(tune, 'B')).toEqual({ first: 3, last: 4 });
    expect(partBars(tune, 'C')).toBeNull();
    expect(allBars(pickup)).toEqual({ first: 0, last: 2 });
  });

  it('suggests bars with shifts and none where the hand stays', () => {
    const still = handoutTunes('X:1\nT:S\nM:4/4\nL:1/4\nK:G clef=bass\nG,A,G,A,|G,4|]\n')[0]!;
    expect(suggestedFocus(still, 2)).toEqual([]);
    const leaps = 'X:1\nT:L\nM:4/4\nL:1/4\nK:C clef=bass\nE,4|E,4|!sulG!A,!sulG!d!sulG!A,!sulG!d|E,4|E,4|E,4|]\n';
    const [range, ...others] = suggestedFocus(handoutTunes(leaps)[0]!, 2);
    expect(others).toEqual([]);
    expect(range!.first <= 3 && range!.last >= 3).toBe(true);
  });

  it('climbs to the tempo of the tune, never past what is comfortable', () => {
    for (const each of handoutTunes(demoBook('lamplighters-ladder'))) {
      const tempos = suggestedTempos(each);
      expect([...tempos].sort((a, b) => a - b)).toEqual(tempos);
      for (const plan of each.plans)
        expect(tempos.at(-1)!).toBeLessThanOrEqual(Math.min(plan.tempo!.bpm, plan.topTempo.comfortable ?? 1000));
    }
  });

  it('tells how long a tune takes, repeats played', () => {
    expect(secondsOf(tune)).toBe(((4 * 4 + 8) * 60) / 120);
    expect(clockText(125.4)).toBe('2:05');
    expect(clockText(59.6)).toBe('1:00');
  });
});
