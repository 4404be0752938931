// How files are practised: remembered for those practised last, whatever a store hands back.
import { describe, expect, it } from 'vitest';
import { type Practice, practiceFrom, practiceOf, practicesFrom, usualPractice, withPractice } from '../../../client/practice.ts';
import { makePracticeStore } from '../../../client/src/preview/practices.ts';

const slow: Practice = { ...usualPractice, share: 0.7, clicks: '2-4', repeat: 'loop', drone: 'fifth' };

describe('a practice', () => {
  it('comes back as it was left', () => expect(practiceFrom(JSON.parse(JSON.stringify(slow)))).toEqual(slow));

  it('is the usual where a store makes no sense', () => {
    for (const value of [undefined, null, 7, 'x', [], { share: 'fast', clicks: 9 }, { share: Number.NaN }])
      expect(practiceFrom(value)).toEqual(usualPractice);
    expect(practiceFrom({ share: 1e9, clicks: '2-4', drone: 'third' })).toEqual({ ...usualPractice, share: 10, clicks: '2-4' });
    expect(practiceFrom({ share: -1 }).share).toBe(0.1);
  });
});

describe('practices', () => {
  it('keep what is known of each file, and forget the one longest unused', () => {
    let all = withPractice([], 'first', slow);
    for (let i = 0; i < 49; i++) all = withPractice(all, `file ${i}`, usualPractice);
    expect(practiceOf(all, 'first')).toEqual(slow);
    all = withPractice(all, 'first', { ...slow, share: 0.8 });
    all = withPractice(all, 'one more', usualPractice);
    expect(all).toHaveLength(50);
    expect(practiceOf(all, 'first')?.share).toBe(0.8);
    expect(practiceOf(all, 'file 0')).toBeNull();
  });

  it('are read from any store', () => {
    expect(practicesFrom({})).toEqual([]);
    expect(practicesFrom([['a', { share: 0.5 }], 'b', [1, {}]])).toEqual([['a', { ...usualPractice, share: 0.5 }]]);
    expect(practicesFrom(Array.from({ length: 80 }, (_, i) => [`${i}`, {}]))).toHaveLength(50);
  });

  it('lie in the workspace’s memory', () => {
    const memory = new Map<string, unknown>();
    const memento = {
      keys: () => [...memory.keys()],
      get: <T>(key: string) => memory.get(key) as T,
      update: async (key: string, value: unknown) => void memory.set(key, JSON.parse(JSON.stringify(value))),
    };
    makePracticeStore(memento).keep('file:///a.abc', slow);
    expect(makePracticeStore(memento).of('file:///a.abc')).toEqual(slow);
    expect(makePracticeStore(memento).of('file:///b.abc')).toBeNull();
  });
});
