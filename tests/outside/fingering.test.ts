// Fingered passages from handbooks and players' parts (passages.tsv, a source a row), against the engine at two paces.
import { expect, it } from 'vitest';
import { makeTables } from '../../server/src/fingering/index.ts';
import type { Fingered, Pin } from '../../server/src/fingering/types.ts';
import { evenTask, type Passage, passages, printedPins } from '../support/passages.ts';
import { rechecked } from '../support/rechecked.ts';

const tables = makeTables(32e6);
/** Rows whose fingering is forced or unanimous among the methods. */
const unanimous = ['C15', 'C17', 'C19', 'C24', 'C31', 'C46', 'C52', 'C54', 'C68', 'C70'];

function solved(pitches: readonly number[], step: number, pins: readonly Pin[] = []): Fingered {
  const task = evenTask(pitches, step, pins);
  const result = rechecked(task, tables);
  if (result.kind !== 'fingered') throw new Error(`unplayable: ${JSON.stringify(result.windows)}`);
  return result;
}

const show = ({ placings }: Fingered): string =>
  placings.map(({ places }) => `${'GDAE'[places[0]!.string]}${places[0]!.stop}:${places[0]!.finger}`).join(' ');
const printed = (row: Passage): string => row.printed.map(({ string, stop, finger }) => `${'GDAE'[string]}${stop}:${finger}`).join(' ');

/** One whole-tone shift of finger 1 on the G string, over the same notes as 1-4. */
function unit(step: number): number {
  const pin = (finger: '1' | '4'): Pin => ({ finger, string: 0, harmonic: false });
  return solved([45, 47], step, [pin('1'), pin('1')]).cost - solved([45, 47], step, [pin('1'), pin('4')]).cost;
}

for (const step of [250_000, 750_000]) {
  const pace = `${step / 1000} ms a note`;

  it(`every printed passage is playable and costs no less than the best, ${pace}`, () => {
    const shifts = passages.map((row) => {
      const best = solved(row.pitches, step).cost;
      return (solved(row.pitches, step, printedPins(row)).cost - best) / unit(step);
    });
    expect(Math.min(...shifts)).toBeGreaterThanOrEqual(0);
    expect(shifts.filter((excess) => excess <= 0.5).length).toBeGreaterThanOrEqual(40);
    expect(shifts.filter((excess) => excess <= 0.25).length).toBeGreaterThanOrEqual(38);
  });

  it(`passages in one place of the hand are played without a shift, ${pace}`, () => {
    for (const row of passages.filter(({ changes }) => changes === 0)) {
      const shifts = solved(row.pitches, step, printedPins(row)).placings.filter(({ shift }) => shift).length;
      expect(shifts, row.id).toBe(0);
    }
  });

  it(`unanimous passages are fingered as printed, ${pace}`, () => {
    for (const row of passages.filter(({ id }) => unanimous.includes(id))) {
      const result = solved(row.pitches, step);
      expect(show(result), row.id).toBe(printed(row));
      const margin = Math.min(
        ...row.pitches.flatMap((_, i) =>
          result
            .alternatives(i, 2)
            .slice(1)
            .map(({ regret }) => regret),
        ),
      );
      console.log(`${row.id} at ${pace}: the next best costs ${margin} milli-shifts more`);
    }
  });
}
