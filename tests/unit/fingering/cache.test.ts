// The store of tables: how much it holds while a player types, and that a long tune finds again what it needs.
import { describe, expect, it } from 'vitest';
import { makeTables, startSearch } from '../../../server/src/fingering/index.ts';
import type { Task } from '../../../server/src/fingering/types.ts';
import { evenTask } from '../../support/passages.ts';
import { randomOf } from '../../support/random-task.ts';

/** Notes anywhere in three octaves: little of one such line is of use for another. */
function line(count: number, seed: number): Task {
  const random = randomOf(seed);
  return evenTask(
    Array.from({ length: count }, () => 28 + Math.floor(random() * 27)),
    250_000,
  );
}

describe('the store of tables', () => {
  it('forgets all at once when it holds more than usual', () => {
    const tables = makeTables(1_000, 400);
    const first = tables.owned('a', () => ({}));
    tables.grew(400);
    expect(tables.owned('a', () => ({}))).toBe(first);
    tables.begin();
    tables.grew(1);
    expect(tables.bytes()).toBe(0);
    expect(tables.owned('a', () => ({}))).not.toBe(first);
  });

  it('gives one search that makes most of it more room, up to the bound', () => {
    const tables = makeTables(1_000, 400);
    tables.begin();
    for (let i = 0; i < 10; i++) tables.grew(100);
    expect(tables.bytes()).toBe(1_000);
    tables.grew(100);
    expect(tables.bytes()).toBe(0);
  });

  it('takes that room back when everything was forgotten after it', () => {
    const tables = makeTables(1_000, 400);
    tables.begin();
    for (let i = 0; i < 7; i++) tables.grew(100);
    for (let i = 0; i < 2; i++) {
      tables.begin();
      tables.grew(100);
    }
    expect(tables.bytes()).toBe(0);
    for (let i = 0; i < 5; i++) {
      tables.begin();
      tables.grew(100);
    }
    expect(tables.bytes()).toBe(0);
  });

  it('holds no more than usual, however many short lines are fingered', () => {
    const usual = 2e6;
    const tables = makeTables(32e6, usual);
    let [most, forgotten, before] = [0, 0, 0];
    for (let seed = 0; seed < 60; seed++) {
      startSearch(line(40, seed), tables).step(Number.MAX_SAFE_INTEGER);
      most = Math.max(most, tables.bytes());
      if (tables.bytes() < before) forgotten++;
      before = tables.bytes();
    }
    expect(forgotten).toBeGreaterThan(0);
    expect(most).toBeLessThanOrEqual(usual);
  });

  it('forgets nothing of a long line while it is fingered, nor when it is fingered again', () => {
    const tables = makeTables(32e6, 1e6);
    const long = line(600, 1);
    startSearch(long, tables).step(Number.MAX_SAFE_INTEGER);
    const held = tables.bytes();
    expect(held).toBeGreaterThan(2e6);
    startSearch(long, tables).step(Number.MAX_SAFE_INTEGER);
    expect(tables.bytes()).toBe(held);
  });
});
