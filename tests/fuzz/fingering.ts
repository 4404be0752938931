// Brute force against the search on many random passages. Usage: npm run fuzz; SEED and COUNT in the environment (1 and 2000).
import { makeTables, recheck, search } from '../../server/src/fingering/index.ts';
import type { Task, TaskNote } from '../../server/src/fingering/types.ts';
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

/** Whether the notes from a join's landing to where it is left again may be open strings alone: the search then lets the hand go on as after the first pass, brute force as after the last. The two may differ. */
function opensOnly({ notes, jumps, player }: Task): boolean {
  const opens = player.setup.tuning.strings.map(({ open }) => open);
  const isOpen = ({ pitches }: TaskNote): boolean => pitches.every((pitch) => opens.includes(pitch));
  return jumps.some(({ to }) => jumps.some(({ from }) => from >= to && notes.slice(to, from + 1).every(isOpen)));
}

for (let i = 0; i < count; i++) {
  const plain = randomTask(random, i % longEvery === 0 ? 5 : 3);
  const task = i % 2 === 0 ? plain : withRepeat(random, plain);
  const best = [...everyWay(task, soundingOf(task)).values()][0];
  const result = search(task, tables);
  const found = result.kind === 'fingered' ? result.cost : Number.POSITIVE_INFINITY;
  const differs = found !== (best ?? Number.POSITIVE_INFINITY);
  const agrees = !differs || opensOnly(task);
  if (differs) apart++;
  const refuted = recheck(task, result);
  if (!agrees || refuted)
    throw new Error(`seed ${seed}, passage ${i}: ${refuted?.why ?? 'brute force finds another cost'}\n${JSON.stringify(task.notes)}`);
  if (best !== undefined) playable++;
}
console.log(
  `fingering: ${count} passages from seed ${seed} equal brute force, ${playable} of them playable; ${apart} apart, each a repeat of open strings alone`,
);
