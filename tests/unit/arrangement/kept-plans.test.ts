// Which fingered parts are kept: those that have not changed are the same again, and long ones do not pile up while a player types.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../../server/src/arrangement/index.ts';
import type { FingeredPart } from '../../../server/src/arrangement/types.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';

/** A book of tunes with so many bars of eight notes each, and how the parts of it are fingered. */
function book(...bars: readonly number[]) {
  const tune = (count: number, i: number): string =>
    `X:${i + 1}\nT:t\nL:1/8\nM:4/4\nQ:1/4=80\nK:D clef=bass\n${'D,E,F,G, A,B,A,F,|'.repeat(count)}\n`;
  const read = readBook(bars.map(tune).join('\n'));
  const tables = makeTables(8e6);
  return {
    tables,
    tunes: bars.map((_, i) => i),
    part: (index: number): FingeredPart => planStage(read, index, defaultConfig, tables).fingered[0]!,
  };
}

describe('fingered parts that are kept', () => {
  it('keeps those of a book of short tunes', () => {
    const { tunes, part } = book(...Array(100).fill(2));
    const first = tunes.map(part);
    for (const [i, one] of tunes.map(part).entries()) expect(one).toBe(first[i]);
  });

  it('keeps four however long they are, and forgets those before', () => {
    const { part } = book(...Array(5).fill(200));
    const first = [0, 1, 2, 3, 4].map(part);
    for (const i of [4, 3, 2, 1]) expect(part(i)).toBe(first[i]);
    expect(part(0)).not.toBe(first[0]);
  });

  it('forgets the one that was not asked for the longest', () => {
    const { part } = book(...Array(5).fill(200));
    const first = [0, 1, 2, 3].map(part);
    expect(part(0)).toBe(first[0]);
    part(4);
    expect(part(0)).toBe(first[0]);
    expect(part(1)).not.toBe(first[1]);
  });

  it('forgets all of them together with the tables they hold on to', () => {
    const { tables, part } = book(2);
    const first = part(0);
    tables.grew(tables.maxBytes + 1);
    expect(part(0)).not.toBe(first);
    expect(part(0).plan).toEqual(first.plan);
  });
});
