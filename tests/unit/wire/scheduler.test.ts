// Slices of the scheduler, by a clock that the jobs themselves move on.
import { describe, expect, it } from 'vitest';
import type { Host } from '../../../server/src/wire/host.ts';
import { makeScheduler } from '../../../server/src/wire/scheduler.ts';

function bed() {
  let clock = 0;
  const turns: (() => void)[] = [];
  const slices: number[] = [];
  const failed: string[] = [];
  const host: Pick<Host, 'now' | 'soon'> = { now: () => clock, soon: (work) => void turns.push(work) };
  const scheduler = makeScheduler(host as Host, (key) => failed.push(key));
  return {
    scheduler,
    slices,
    failed,
    turns,
    /** Lets `ms` go by. */
    pass: (ms: number) => {
      clock += ms;
    },
    /** The next turn in which something is done. */
    turn() {
      const start = clock;
      while (turns.length > 0 && clock === start) turns.shift()!();
      slices.push(clock - start);
    },
  };
}

describe('the scheduler', () => {
  it('lets others in after at most 4 ms of small pieces', () => {
    const { scheduler, slices, pass, turn, turns } = bed();
    let left = 100;
    const step = (): boolean => {
      pass(0.5);
      return --left === 0;
    };
    scheduler.put({ key: 'long', urgency: 1, begins: 'at-once', step });
    while (turns.length > 0) turn();
    expect(left).toBe(0);
    expect(slices.length).toBeGreaterThan(10);
    expect(Math.max(...slices)).toBeLessThanOrEqual(4);
  });
  it('does the most urgent first, also when it comes later', () => {
    const { scheduler, pass, turn, turns } = bed();
    const done: string[] = [];
    const job = (key: string, urgency: number, pieces: number) => {
      let left = pieces;
      const step = (): boolean => {
        pass(1);
        if (--left === 0) done.push(key);
        return left === 0;
      };
      scheduler.put({ key, urgency, begins: 'at-once', step });
    };
    job('rest', 2, 8);
    turn();
    job('edited', 0, 8);
    while (turns.length > 0) turn();
    expect(done).toEqual(['edited', 'rest']);
  });
  it('forgets what is dropped and what a newer job replaces', () => {
    const { scheduler, pass, turn, turns } = bed();
    const steps: string[] = [];
    const endless = (key: string, name: string): void => {
      const step = (): boolean => {
        pass(1);
        steps.push(name);
        return false;
      };
      scheduler.put({ key, urgency: 1, begins: 'at-once', step });
    };
    endless('a#1', 'old');
    turn();
    endless('a#1', 'new');
    turn();
    expect(steps.slice(0, 4)).toEqual(Array(4).fill('old'));
    expect(steps.slice(4)).toEqual(Array(4).fill('new'));
    scheduler.drop('a#');
    turn();
    expect(steps).toHaveLength(8);
    expect([scheduler.waiting, turns.length]).toEqual([0, 0]);
  });
  it('lets messages in before it begins: what they replace is never begun', () => {
    const { scheduler, turns } = bed();
    const begun: number[] = [];
    for (let version = 1; version <= 30; version++) {
      scheduler.put({ key: 'a#1', urgency: 1, begins: 'when-quiet', step: () => begun.push(version) > 0 });
      // A message takes a few turns to come in.
      for (let i = 0; i < 5; i++) turns.shift()!();
    }
    expect(begun).toEqual([]);
    while (turns.length > 0) turns.shift()!();
    expect(begun).toEqual([30]);
  });
  it('begins at once with what the player asked for', () => {
    const { scheduler, turns } = bed();
    const done: string[] = [];
    scheduler.put({ key: 'a#1', urgency: 1, begins: 'when-quiet', step: () => done.push('changed') > 0 });
    scheduler.put({ key: 'a#2', urgency: 2, begins: 'at-once', step: () => done.push('asked') > 0 });
    turns.shift()!();
    expect(done).toEqual(['asked']);
    while (turns.length > 0) turns.shift()!();
    expect(done).toEqual(['asked', 'changed']);
  });
  it('goes on with what it has begun while messages come one by one', () => {
    const { scheduler, turns } = bed();
    let left = 20;
    scheduler.put({ key: 'a#1', urgency: 1, begins: 'when-quiet', step: () => --left === 0 });
    for (let i = 0; left > 0 && i < 1_000; i++) {
      turns.shift()!();
      if (i % 20 === 0) scheduler.put({ key: 'b#1', urgency: 2, begins: 'when-quiet', step: () => true });
    }
    expect(left).toBe(0);
  });
  it('tells of a job that throws and goes on', () => {
    const { scheduler, failed, turn } = bed();
    let done = false;
    scheduler.put({
      key: 'bad',
      urgency: 0,
      begins: 'at-once',
      step: () => {
        throw new Error('bad');
      },
    });
    scheduler.put({ key: 'good', urgency: 1, begins: 'at-once', step: () => (done = true) });
    turn();
    expect([failed, done]).toEqual([['bad'], true]);
  });
});
