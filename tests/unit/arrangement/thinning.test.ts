// A rung of thinning for each phrase: as exact as trying all choices, and no note lost where a phrase can be played whole.
import { describe, expect, it } from 'vitest';
import { leastThinning, order, rungs } from '../../../server/src/arrangement/phrase-thinning.ts';
import type { Thinning } from '../../../server/src/arrangement/thinning.ts';
import { seeded } from '../../support/random.ts';
import { arranged, bodyOf, planned, tune } from './support.ts';

/** A passage over some phrases that is mended once any one of them is thinned to the rung it asks of it. */
type Passage = ReadonlyMap<number, number>;

const troublesOf = (passages: readonly Passage[], chosen: readonly number[]): readonly (readonly number[])[] =>
  passages.filter((passage) => [...passage].every(([phrase, rung]) => chosen[phrase]! < rung)).map((passage) => [...passage.keys()]);

/** Every choice that thins phrases of equal keys alike. */
function allChoices(keys: readonly string[]): readonly (readonly number[])[] {
  const different = [...new Set(keys)];
  return Array.from({ length: 4 ** different.length }, (_, n) => keys.map((key) => Math.floor(n / 4 ** different.indexOf(key)) % 4));
}

describe('the search over rungs', () => {
  it('finds what trying all choices finds, in the stated order', () => {
    const random = seeded(11);
    for (let round = 0; round < 60; round++) {
      const keys = Array.from({ length: 2 + random.below(4) }, () => random.pick('abcd'));
      const passages = Array.from(
        { length: 1 + random.below(5) },
        (): Passage =>
          new Map(Array.from({ length: 1 + random.below(2) }, () => [random.below(keys.length), 1 + random.below(3)] as const)),
      );
      const mended = allChoices(keys).filter((chosen) => troublesOf(passages, chosen).length === 0);
      const best = mended.reduce((a, b) => (order(b, a) < 0 ? b : a));
      const made = leastThinning(keys, (chosen) => ({
        made: null,
        troubles: troublesOf(
          passages,
          chosen.map((one) => rungs.indexOf(one)),
        ),
      }));
      expect(made).toMatchObject({ rungs: best.map((rung) => rungs[rung]), troubles: [], exact: true });
    }
  });
  it('leaves what no thinning mends in trouble, and mends the rest with the least', () => {
    const made = leastThinning(['a', 'b', 'c'], (chosen: readonly Thinning[]) => ({
      made: null,
      troubles: [[1], ...(chosen[2] === 'none' ? [[2]] : [])],
    }));
    expect(made).toMatchObject({ rungs: ['none', 'quarter', 'slur'], troubles: [[1]] });
  });
});

describe('a fast phrase does not thin its neighbours', () => {
  /** Broken chords in eighths are 9 attacks a second at this tempo, and no two of them are a step apart; the second phrase is never over 7. */
  const fast = 'DFAF DFAF|DFAF DFAF|EGBG EGBG|EGBG EGBG|';
  const slow = 'D2E2 F2GA|B2A2 F4|D2E2 F2GA|B4 D4|';
  const source = tune('M:2/2 ; L:1/8 ; Q:1/2=140 ; K:D', `P:A\n${fast}\n${slow}`);
  const made = arranged(source, { version: 'low' });
  it('the fast one goes to quarters, the other keeps its eighths', () => {
    const body = bodyOf(made.text).split('\n').slice(1).join('').replaceAll(/[()]/g, '');
    expect(body).toBe('D,2A,2 D,2A,2|D,2A,2 D,2A,2|E,2B,2 E,2B,2|E,2B,2 E,2B,2|D,2E,2 F,2G,A,|B,2A,2 F,4|D,2E,2 F,2G,A,|B,4 D,4|');
    expect(made.warnings).toEqual([]);
    expect(planned(made.text).fingered[0]!.plan.playable).toBe(true);
  });
  it('says so of each note', () => {
    expect(made.thinning).toBe('quarter');
    expect(made.report.filter((note) => note.thinning === 'none').map((note) => note.bar)).toEqual([
      ...Array(5).fill(5),
      ...Array(3).fill(6),
      ...Array(5).fill(7),
      ...Array(2).fill(8),
    ]);
    const gone = made.report.filter((note) => note.fate === 'dropped');
    expect(gone).toHaveLength(16);
    expect(new Set(gone.map((note) => note.why))).toEqual(new Set(['off the quarter grid; bars 1 to 4 are thinned to the beats']));
  });
  it('equal parts are thinned alike', () => {
    const { report } = arranged(tune('M:2/2 ; L:1/8 ; Q:1/2=140 ; K:D', `P:A\n${fast}\nP:B\n${slow}\nP:C\n${fast}`), { version: 'low' });
    const ofBar = (bar: number) => report.filter((note) => note.bar === bar).map(({ fate, thinning }) => `${fate} ${thinning}`);
    for (const bar of [1, 2, 3, 4]) expect(ofBar(bar + 8)).toEqual(ofBar(bar));
  });
  it('asked for one rung, all phrases take it', () =>
    expect(new Set(arranged(source, { version: 'low', thin: 'quarter' }).report.map((note) => note.thinning))).toEqual(
      new Set(['quarter']),
    ));
});
