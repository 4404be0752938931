// The recheck objects to what is not so: a cost too low or too high, another way through, a potential out of place, a window that can be played.
import { describe, expect, it } from 'vitest';
import { makeTables, recheck } from '../../../server/src/fingering/index.ts';
import type { Certificate, Fingered, Task, Unplayable } from '../../../server/src/fingering/types.ts';
import { evenTask } from '../../support/passages.ts';
import { rechecked } from '../../support/rechecked.ts';

const tables = makeTables(32e6);
const task = evenTask([33, 36, 40, 43, 47, 45, 50, 48], 250_000);
const fingered = (of: Task): Fingered => {
  const result = rechecked(of, tables);
  if (result.kind !== 'fingered') throw new Error('judged unplayable');
  return result;
};
const best = fingered(task);
const objection = (claim: Fingered | Unplayable, of = task): string | undefined => recheck(of, claim)?.why;

describe('of a fingering', () => {
  it('to a cost that is not its own', () => {
    expect(objection({ ...best, cost: best.cost - 1 })).toMatch(/nothing costs less than/);
    expect(objection({ ...best, cost: best.cost + 1 })).toMatch(/and costs/);
  });
  it('to a dearer way, told with its true cost', () => {
    const { regret, places, hand } = best.alternatives(4, 2)[1]!;
    const fingers = places.map(({ finger, string }) => ({ finger, string, harmonic: false }));
    const dearer = fingered({ ...task, notes: task.notes.map((note, i) => (i === 4 ? { ...note, pins: fingers } : note)) });
    expect(dearer.cost).toBe(best.cost + regret);
    expect(objection({ ...dearer, certificate: best.certificate })).toMatch(/is shown to be needed/);
    const other = { ...best, placings: best.placings.map((one, i) => (i === 4 ? { ...one, places, hand } : one)) };
    expect(objection(other)).toBeDefined();
  });
  it('to each potential that is higher than the states before it allow', () => {
    const raised = (at: number, state: number): Certificate =>
      best.certificate().map((own, i) => (i === at ? own.map((one, j) => (j === state ? { ...one, cost: one.cost + 1 } : one)) : own));
    for (const [at, own] of best.certificate().entries())
      for (const state of own.keys()) expect(objection({ ...best, certificate: () => raised(at, state) }), `${at} ${state}`).toBeDefined();
  });
  it('to a state left out', () => {
    const without = best.certificate().map((own, i) => (i === 3 ? own.slice(1) : own));
    expect(objection({ ...best, certificate: () => without })).toMatch(/less than its potential/);
  });
  it('to potentials too low to bound the cost', () => {
    const lowered = best.certificate().map((own) => own.map((one) => ({ ...one, cost: one.cost - 1 })));
    expect(objection({ ...best, certificate: () => lowered })).toMatch(/is shown to be needed/);
  });
});

it('of a repeat, to a cost other than that of its written notes and joins', () => {
  const repeat = { ...task, jumps: [{ from: 5, to: 1, gap: 250_000 }] };
  const joined = fingered(repeat);
  expect(objection({ ...joined, cost: joined.cost - 1 }, repeat)).toMatch(/and costs/);
  expect(objection({ ...joined, cost: joined.cost + 1 }, repeat)).toMatch(/and costs/);
});

it('of an unplayable part, to a window that can be played and to one with notes to spare', () => {
  const quick = evenTask([33, 36, 62, 28, 63, 40, 41], 60_000);
  const refused = rechecked(quick, tables);
  if (refused.kind !== 'unplayable') throw new Error('judged playable');
  const [first] = refused.windows;
  const withFirst = (change: { readonly first?: number; readonly last?: number }): Unplayable => ({
    ...refused,
    windows: [{ ...first!, ...change }],
  });
  expect(objection(withFirst({ first: 0, last: 1 }), quick)).toMatch(/can be played/);
  expect(objection(withFirst({ first: first!.first - 1 }), quick)).toMatch(/a part of it cannot/);
});

it('takes a repeat on open strings as it sounds: the hand has the time of all passes', () => {
  const opens = { ...evenTask([40, 43, 38, 33, 28, 60], 90_000), jumps: [{ from: 4, to: 1, gap: 90_000 }] };
  expect(fingered(opens).exact).toBe(true);
});
