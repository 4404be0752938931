// Work against size: long and deeply nested inputs of every kind, doubled twice. Counted work must at most grow by 2.2 at each doubling; time, which alone sees loops inside the engine, is held to the same where it is long enough to measure.
import { readBook } from '../../server/src/abc/index.ts';
import { longTexts } from '../support/long-texts.ts';
import { readAll } from '../support/trees.ts';
import { workCounter } from '../support/work.ts';

const COUNTED_SIZES = [10_000, 20_000, 40_000];
const TIMED_SIZES = [50_000, 100_000, 200_000];
const LONGEST = 1_000_000;
const STEEPEST = 2.2;

const read = (text: string): void => void readAll(readBook(text));

/** Time of this program alone, whatever else the machine does. */
const milliseconds = (text: string): number => {
  const from = process.cpuUsage();
  read(text);
  return process.cpuUsage(from).user / 1_000;
};

/** The shortest of several runs, so that other work on the machine and the collector count for little. */
const shortest = (text: string, runs: number): number => Math.min(...Array.from({ length: runs }, () => milliseconds(text)));

const growths = (sizes: readonly number[]): readonly number[] => sizes.slice(1).map((size, i) => size / sizes[i]!);

/** Time that grows too fast does so at both doublings; growth in short times is noise. */
const isSteep = (times: readonly number[]): boolean => times.at(-1)! > 20 && growths(times).every((growth) => growth > STEEPEST);

let steep = 0;
let worst = 0;
for (const { name, of } of longTexts) {
  const timesOf = (runs: number): readonly number[] => TIMED_SIZES.map((size) => shortest(of(size), runs));
  // A second look, at more runs: what was noise is gone then.
  const times = isSteep(timesOf(3)) ? timesOf(12) : [0];
  if (isSteep(times)) {
    steep++;
    console.log(`${name}: ${times.map(Math.round).join(', ')} ms`);
  }
  worst = Math.max(worst, milliseconds(of(LONGEST)));
}

let steepest = 0;
const counter = workCounter();
for (const { name, of } of longTexts) {
  const counts = COUNTED_SIZES.map((size) => counter.count(() => read(of(size))));
  const growth = Math.max(...growths(counts));
  steepest = Math.max(steepest, growth);
  if (growth <= STEEPEST) continue;
  steep++;
  console.log(`${name}: ${counts.join(', ')} blocks`);
}
counter.close();
console.log(
  `${longTexts.length} kinds, ${steep} steeper than ${STEEPEST}; counted work grew at most ${steepest.toFixed(3)} at a doubling; the slowest ${LONGEST} signs took ${Math.round(worst)} ms`,
);
process.exitCode = steep > 0 ? 1 : 0;
