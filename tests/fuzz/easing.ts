// Easing never makes anything worse, on many random passages, half of them with repeats. Usage: npm run fuzz -- easing; SEED and COUNT (a property) in the environment (1 and 5000).
import { makeTables, search } from '../../server/src/fingering/index.ts';
import { easings, worsened } from '../support/easings.ts';
import { randomOf, randomTask, withRepeat } from '../support/random-task.ts';

const seed = Number(process.env.SEED ?? 1);
const count = Number(process.env.COUNT ?? 5000);
const tables = makeTables(32e6);

for (const [name, ease] of easings) {
  const random = randomOf(seed);
  const sums = { changed: 0, cheaper: 0, freed: 0, unplayable: 0, inexact: 0 };
  for (let i = 0; i < count; i++) {
    const plain = randomTask(random, 10);
    const task = i % 2 === 0 ? plain : withRepeat(random, plain);
    const eased = ease(task, random);
    const [before, after] = [search(task, tables), search(eased, tables)];
    const fault = worsened(task, before, after);
    if (fault !== null) throw new Error(`seed ${seed}, passage ${i}, ${name}: ${fault}\n${JSON.stringify(task)}`);
    sums.changed += Number(JSON.stringify(eased) !== JSON.stringify(task));
    sums.unplayable += Number(before.kind === 'unplayable');
    sums.freed += Number(before.kind === 'unplayable' && after.kind === 'fingered');
    sums.cheaper += Number(before.kind === 'fingered' && after.kind === 'fingered' && after.cost < before.cost);
    sums.inexact += Number(after.kind === 'fingered' && !after.exact);
  }
  console.log(
    `${name}: ${count} passages from seed ${seed}, ${sums.changed} of them eased, none worse; ${sums.cheaper} cheaper, ` +
      `${sums.unplayable} unplayable before and ${sums.freed} of these playable after; ${sums.inexact} said to be inexact`,
  );
}
