// Learns the fitted weights of the cost again from the printed passages, leaving one source out at a time. Usage: npm run fit; SECONDS of computing in the environment (60), shared alike by all folds. Prints what it finds; the table in cost/weights.ts is changed by hand.
import { makeTables, type TableCache } from '../../server/src/fingering/cache.ts';
import { makeChain } from '../../server/src/fingering/chain.ts';
import { weights as current, type Weights } from '../../server/src/fingering/cost/weights.ts';
import { nothingLifted } from '../../server/src/fingering/limits/lifted.ts';
import { modelFor } from '../../server/src/fingering/model.ts';
import { forwardPass } from '../../server/src/fingering/paths.ts';
import type { Pin, Task } from '../../server/src/fingering/types.ts';
import { finish } from '../../server/src/fingering/work.ts';
import { evenTask, type Passage, passages, printedPins } from '../support/passages.ts';

/** Weights that passages can tell apart; more of them fit better and predict worse. Bounds keep each in a range that means something. */
const bounds = {
  place: [500, 1400],
  dullness: [0, 1200],
  crossing: [0, 900],
  extension: [0, 900],
  skip: [0, 1600],
  halfPosition: [0, 500],
} as const;
type Free = keyof typeof bounds;
const free = Object.keys(bounds) as readonly Free[];
const strides = [0.25, 0.1] as const;
/** Excess in shifts that one passage counts at most: taste and missing context should not pull at the rest. */
const excessMost = 2;
const step = 250_000;
const sources = [...new Set(passages.map(sourceOf))];
const foldSeconds = Number(process.env.SECONDS ?? 60) / (sources.length + 1);
const computed = (): number => process.cpuUsage().user / 1e6;
let hurried = 0;

/** Scales and thumb drills of many hands count as one source each. */
function sourceOf({ source }: Passage): string {
  if (/^"?([A-G] major|School)/.test(source)) return 'scales';
  if (/^(Rabbath|Bradetich|Thumb)/.test(source)) return 'thumb drills';
  return /^"?((R\. )?[^\s,]+)/.exec(source)![1]!;
}

function costOf(task: Task, weights: Weights, tables: TableCache): number {
  return finish(forwardPass(makeChain(modelFor(task, tables, nothingLifted, weights), task), new Map()))!.cost;
}

/** One whole-tone shift of finger 1 on the G string, over the same notes as 1-4: the unit of all excess. */
function unitOf(weights: Weights, tables: TableCache): number {
  const pin = (finger: '1' | '4'): Pin => ({ finger, string: 0, harmonic: false });
  const cost = (second: '1' | '4') => costOf(evenTask([45, 47], step, [pin('1'), pin(second)]), weights, tables);
  return cost('1') - cost('4');
}

const excesses = new Map<string, ReadonlyMap<string, number>>();

/** Excess of each passage as printed over the best, in shifts; kept, since many folds ask for the same weights. */
function excessBy(weights: Weights): ReadonlyMap<string, number> {
  const key = free.map((name) => weights[name]).join();
  const found = excesses.get(key);
  if (found) return found;
  const tables = makeTables(32e6);
  const unit = unitOf(weights, tables);
  const made = new Map(
    passages.map((row) => {
      const over =
        costOf(evenTask(row.pitches, step, printedPins(row)), weights, tables) - costOf(evenTask(row.pitches, step), weights, tables);
      return [row.id, Math.min(excessMost, over / unit)];
    }),
  );
  excesses.set(key, made);
  return made;
}

function meanExcess(weights: Weights, rows: readonly Passage[]): number {
  const by = excessBy(weights);
  return rows.reduce((sum, { id }) => sum + by.get(id)!, 0) / rows.length;
}

/** Coordinate descent: each weight up and down by a stride, as long as something gets better and there is time. */
function fitted(start: Weights, rows: readonly Passage[]): Weights {
  const endsAt = computed() + foldSeconds;
  let best = start;
  for (const stride of strides) {
    for (let better = true; better; ) {
      better = false;
      for (const name of free) {
        for (const factor of [1 + stride, 1 - stride]) {
          if (computed() > endsAt) {
            hurried++;
            return best;
          }
          const [least, most] = bounds[name];
          const tried = { ...best, [name]: Math.round(Math.min(most, Math.max(least, best[name] * factor))) };
          if (meanExcess(tried, rows) >= meanExcess(best, rows) - 1e-9) continue;
          best = tried;
          better = true;
        }
      }
    }
  }
  return best;
}

const show = (weights: Weights): string => free.map((name) => `${name} ${weights[name]}`).join(', ');

console.log(`now: mean excess ${meanExcess(current, passages).toFixed(3)} shifts with ${show(current)}`);
let heldOut = 0;
for (const source of sources) {
  const [out, rest] = [passages.filter((row) => sourceOf(row) === source), passages.filter((row) => sourceOf(row) !== source)];
  const learned = fitted(current, rest);
  heldOut += meanExcess(learned, out) * out.length;
  console.log(
    `without ${source} (${out.length}): train ${meanExcess(learned, rest).toFixed(3)}, held out ${meanExcess(learned, out).toFixed(3)}`,
  );
}
const all = fitted(current, passages);
console.log(`held out, all sources: ${(heldOut / passages.length).toFixed(3)} shifts`);
console.log(`fitted to all: ${meanExcess(all, passages).toFixed(3)} with ${show(all)}`);
if (hurried > 0) console.log(`${hurried} fits had not settled when their time was up; give more with SECONDS.`);
