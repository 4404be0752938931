// Fuzzing of the sheet: random edits of corpus tunes, kept pictures against fresh ones. Arguments: tunes (40), edits a tune (25), seed (1).
import { readBook } from '../../server/src/abc/index.ts';
import { corpusFiles } from '../support/corpora.ts';
import { editRandomly } from '../support/page/random-edits.ts';
import { seeded } from '../support/random.ts';

const count = Number(process.argv[2] ?? 40);
const edits = Number(process.argv[3] ?? 25);
const seed = Number(process.argv[4] ?? 1);
const random = seeded(seed);
const tunes = corpusFiles().flatMap(({ text }) => readBook(text).tunes.map(({ at, tree }) => text.slice(at, at + tree.length)));

let wrong = 0;
for (let i = 0; i < count && tunes.length > 0; i++) {
  const tune = random.pick(tunes).replace(/\r\n?/g, '\n');
  const body = Math.max(0, tune.indexOf('\n', tune.indexOf('\nK:') + 1) + 1);
  try {
    const texts = editRandomly(tune, body, seed + i, edits);
    wrong += texts.length;
    for (const text of texts.slice(0, 1)) console.log(`differs:\n${text}\n`);
  } catch (error) {
    console.log(`not drawn: ${(error as Error).message}\n${tune.slice(0, 80)}`);
  }
}
console.log(`${count} tunes of ${tunes.length}, ${edits} edits each, seed ${seed}: ${wrong} sheets differ`);
process.exitCode = wrong > 0 ? 1 : 0;
