// Arranging every corpus and demo tune low and high, inking, formatting, renaming and transposing the low one, transposing the melody there and back, and updating after random changes on both sides. Then random texts, which must not throw. Arguments: updates (300), seed (1), every nth tune (1), texts (300).
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBook } from '../../server/src/abc/index.ts';
import { arrange, scoreStage } from '../../server/src/arrangement/index.ts';
import { arrangedFaults, backingFaults, tools, transposeFaults, updateFaults, useAll } from '../support/arranging.ts';
import { corpusFiles } from '../support/corpora.ts';
import { randomText, seeded } from '../support/random.ts';
import { roundTripFaults } from '../support/round-trips.ts';

const updates = Number(process.argv[2] ?? 300);
const random = seeded(Number(process.argv[3] ?? 1));
const nth = Number(process.argv[4] ?? 1);
const demo = join(import.meta.dirname, '../../media/demo');
const demoTexts = readdirSync(demo)
  .filter((name) => name.endsWith('.abc'))
  .map((name) => readFileSync(join(demo, name), 'utf8'));
const stages = [...demoTexts, ...corpusFiles().map(({ text }) => text)]
  .flatMap((text) => {
    const book = readBook(text);
    return book.tunes.map((_, i) => scoreStage(book, i));
  })
  .filter((stage) => (stage.score.voices[0]?.notes.length ?? 0) > 1);

let wrong = 0;
const tell = (stage: (typeof stages)[number], what: string, faults: readonly string[]): void => {
  if (faults.length === 0) return;
  wrong++;
  console.log(`${stage.score.title} ${what}: ${faults.slice(0, 2).join('; ')}`);
};
let made = 0;
for (const stage of stages.filter((_, i) => i % nth === 0)) {
  tell(stage, 'bass line', backingFaults(stage));
  for (const by of [5, -3]) tell(stage, 'transposed', transposeFaults(stage, by));
  const low = arrange(stage, { version: 'low', number: 2, keyShift: 0, tempo: null, thin: 'auto', pins: 'none' }, tools);
  if (low.kind === 'arranged') tell(stage, 'low, round trips', roundTripFaults(low.text));
  for (const version of ['low', 'high'] as const) {
    made++;
    tell(stage, version, arrangedFaults(stage, version));
  }
}
for (let i = 0; i < updates && stages.length > 0; i++) {
  const stage = random.pick(stages);
  tell(stage, `update ${i}`, updateFaults(stage, random.pick(['low', 'high'] as const), random));
}
const texts = Number(process.argv[5] ?? 300);
for (let i = 0; i < texts; i++) {
  const text = randomText(random, 5 + random.below(80));
  try {
    useAll(text);
  } catch (error) {
    wrong++;
    console.log(`${(error as Error).stack}\n${JSON.stringify(text)}`);
  }
}
console.log(`${made} versions made, ${updates} updates, ${texts} random texts: ${wrong} with faults`);
process.exitCode = wrong > 0 ? 1 : 0;
