// Fuzzing of the reader: mutated tunes, deep nesting, long lines. Arguments: number of inputs (1,000,000), seed (1).
import { printBook, readBook, rereadBook } from '../../server/src/abc/index.ts';
import { readScore } from '../../server/src/score/index.ts';
import { applyEdits } from '../../server/src/text/span.ts';
import { corpusFiles } from '../support/corpora.ts';
import { randomEdit, randomText, seeded } from '../support/random.ts';
import { faultOf, plain, readAll } from '../support/trees.ts';

const inputs = Number(process.argv[2] ?? 1_000_000);
const seed = Number(process.argv[3] ?? 1);
const random = seeded(seed);
const tunes = corpusFiles().flatMap(({ text }) => readBook(text).tunes.map(({ at, tree }) => text.slice(at, at + tree.length)));
const LONGEST = 4_000;

function mutated(): string {
  let text = tunes.length === 0 || random.below(4) === 0 ? randomText(random, random.below(80)) : random.pick(tunes).slice(0, LONGEST);
  for (let n = random.below(6); n > 0; n--) text = applyEdits(text, [randomEdit(random, text)]);
  return random.below(10) === 0 ? text.slice(0, random.below(text.length + 1)) : text;
}

function fail(what: string, text: string): never {
  console.error(`seed ${seed}: ${what}\n${JSON.stringify(text)}`);
  process.exit(1);
}

let events = 0;
for (let i = 0; i < inputs; i++) {
  const text = mutated();
  try {
    const book = readBook(text);
    const fault = faultOf(book, text);
    if (fault) fail(fault, text);
    if (printBook(book) !== text) fail('does not print back', text);
    events += readAll(book);
    // Every tenth input is edited too: reading again must equal reading.
    if (i % 10 === 0) {
      const edit = randomEdit(random, text);
      const next = applyEdits(text, [edit]);
      const again = rereadBook(book, [edit], next).book;
      const fresh = readBook(next);
      const scores = (of: typeof book): string => JSON.stringify(of.tunes.map(({ tree }) => readScore(of.header, tree)));
      if (plain(again) !== plain(fresh) || scores(again) !== scores(fresh)) fail(`reread differs after ${JSON.stringify(edit)}`, text);
    }
  } catch (problem) {
    fail(String(problem), text);
  }
  if ((i + 1) % 100_000 === 0) console.log(`${i + 1} inputs, ${events} notes`);
}
console.log(`${inputs} inputs (${Math.ceil(inputs / 10)} edited and read again), ${events} notes, seed ${seed}: no fault`);
