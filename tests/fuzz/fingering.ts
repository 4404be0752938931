// Brute force against the search on many random passages. Usage: npm run fuzz; SEED and COUNT in the environment (1 and 2000).
import { makeTables, recheck, search } from '../../server/src/fingering/index.ts';
import { everyWay } from '../support/brute-force.ts';
import { randomOf, randomTask, soundingOf, withRepeat } from '../support/random-task.ts';

const seed = Number(process.env.SEED ?? 1);
const count = Number(process.env.COUNT ?? 2000);
/** Every so many passages one has up to five notes, the others up to three: the ways to try grow thirtyfold a note. */
const longEvery = 40;
const random = randomOf(seed);
const tables = makeTables(32e6);
let playable = 0;
let apart = 0;

for (let i = 0; i < count; i++) {
  const plain = randomTask(random, i % longEvery === 0 ? 5 : 3);
  const task = i % 2 === 0 ? plain : withRepeat(random, plain);
  const best = [...everyWay(task, soundingOf(task)).values()][0];
  const result = search(task, tables);
  const found = result.kind === 'fingered' ? result.cost : Number.POSITIVE_INFINITY;
  const differs = found !== (best ?? Number.POSITIVE_INFINITY);
  // What does not claim to be exact may differ, and is counted.
  const agrees = !differs || (result.kind === 'fingered' && !result.exact);
  if (differs) apart++;
  const refuted = recheck(task, result);
  if (!agrees || refuted)
    throw new Error(`seed ${seed}, passage ${i}: ${refuted?.why ?? 'brute force finds another cost'}\n${JSON.stringify(task.notes)}`);
  if (best !== undefined) playable++;
}
console.log(
  `fingering: ${count} passages from seed ${seed} equal brute force, ${playable} of them playable; ${apart} apart, each of them said to be inexact`,
);
