// The engine's speed: 512 notes cold, warm and with one note changed, 10,000 notes, growth with length, memory of the tables. Prints figures and ratios; judges nothing.
import { makeTables, search } from '../../server/src/fingering/index.ts';
import { evenTask } from '../support/passages.ts';
import { randomOf } from '../support/random-task.ts';

const scale = [33, 35, 37, 38, 40, 42, 43, 45, 47, 48, 50, 52];
function line(count: number, seed: number, changed = -1): ReturnType<typeof evenTask> {
  const random = randomOf(seed);
  let at = 5;
  const pitches = Array.from({ length: count }, () => {
    at = Math.min(scale.length - 1, Math.max(0, at + Math.floor(random() * 5) - 2));
    return scale[at]!;
  });
  return evenTask(pitches.with(Math.max(0, changed), changed < 0 ? pitches[0]! : scale[changed % scale.length]!), 250_000);
}

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

const first = timed(() => search(line(512, 1), makeTables(32e6)));
const cold = median(Array.from({ length: 9 }, (_, i) => timed(() => search(line(512, i), makeTables(32e6)))));
const tables = makeTables(32e6);
search(line(512, 1), tables);
const warm = median(Array.from({ length: 9 }, () => timed(() => search(line(512, 1), tables))));
for (let i = 0; i < 40; i++) search(line(512, 1, (i * 37) % 512), tables);
const edit = median(Array.from({ length: 40 }, (_, i) => timed(() => search(line(512, 1, (i * 53 + 5) % 512), tables))));
const long = median(Array.from({ length: 5 }, () => timed(() => search(line(10_000, 1), makeTables(32e6)))));
const half = median(Array.from({ length: 5 }, () => timed(() => search(line(5_000, 1), makeTables(32e6)))));
console.log(
  `512 notes: fresh process ${first.toFixed(0)} ms, cold tables ${cold.toFixed(1)} ms, warm ${warm.toFixed(1)} ms, another note changed each time ${edit.toFixed(1)} ms`,
);
console.log(`10,000 notes, cold tables: ${long.toFixed(0)} ms; twice the notes take ${(long / half).toFixed(2)} times as long`);
for (let i = 0; i < 200; i++) search(line(100, i), tables);
console.log(`tables after 200 tunes: ${(tables.bytes() / 1e6).toFixed(1)} MB of ${tables.maxBytes / 1e6}`);
