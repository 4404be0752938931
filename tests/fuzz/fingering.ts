// Brute force against the search on many random passages, best and second best. Usage: npm run fuzz; SEED, COUNT and NOTES in the environment (1, 20000 and 8).
import { makeTables, recheck, search } from '../../server/src/fingering/index.ts';
import { againstBruteForce } from '../support/against-brute-force.ts';
import { randomOf, randomTask, withRepeat } from '../support/random-task.ts';

const seed = Number(process.env.SEED ?? 1);
const count = Number(process.env.COUNT ?? 20_000);
const notes = Number(process.env.NOTES ?? 8);
/** Grips tried on one passage before it is left: a few seconds. */
const tries = 5_000_000;
const random = randomOf(seed);
const tables = makeTables(32e6);
const sums = { playable: 0, repeats: 0, inexact: 0, untried: 0 };

for (let i = 0; i < count; i++) {
  const plain = randomTask(random, notes);
  const task = i % 2 === 0 ? plain : withRepeat(random, plain);
  const result = search(task, tables);
  const verdict = againstBruteForce(task, result, tries);
  const exact = result.kind === 'unplayable' || result.exact;
  const refuted = recheck(task, result);
  // What does not claim to be exact may differ, and is counted.
  const fault = refuted?.why ?? (exact && verdict.kind === 'apart' ? verdict.why : null);
  if (fault !== null) throw new Error(`seed ${seed}, passage ${i}: ${fault}\n${JSON.stringify(task)}`);
  sums.playable += Number(result.kind === 'fingered');
  sums.repeats += Number(task.jumps.length > 0);
  sums.inexact += Number(!exact);
  sums.untried += Number(verdict.kind === 'untried');
}
console.log(
  `fingering: ${count} passages of up to ${notes} notes from seed ${seed}: ${count - sums.untried - sums.inexact} equal brute force, best and second best; ` +
    `${sums.playable} playable, ${sums.repeats} with repeats, ${sums.inexact} said to be inexact, ${sums.untried} with too many ways to try`,
);
