// Inking, formatting, renaming, and transposing there and back keep every note of a part: the demo's parts, versions made of its melodies, and of some real tunes; all tunes in tests/fuzz/arranging.ts.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { arrange, scoreStage, versionOf } from '../../../server/src/arrangement/index.ts';
import { tools } from '../../support/arranging.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { roundTripFaults } from '../../support/round-trips.ts';

const folder = new URL('../../../media/demo/', import.meta.url);
const demo = readdirSync(folder)
  .filter((name) => name.endsWith('.abc'))
  .map((name) => readBook(readFileSync(new URL(name, folder), 'utf8')))
  .flatMap((book) => book.tunes.map((_, i) => scoreStage(book, i)));
const cases = demo.map((stage) => [`${stage.score.title} (${versionOf(stage)?.version ?? 'tune'})`, stage] as const);

describe('the demo, as it is written', () => {
  it.each(cases)('%s', (_title, stage) => expect(roundTripFaults(stage.text)).toEqual([]));
});

const made = (stage: (typeof demo)[number], version: 'low' | 'high'): string | null => {
  const one = arrange(stage, { version, number: 2, keyShift: 0, tempo: null, thin: 'auto', pins: 'none' }, tools);
  return one.kind === 'arranged' ? one.text : null;
};

describe('versions made of the demo’s melodies', () => {
  it.each(
    cases
      .filter(([, stage]) => versionOf(stage)?.version === 'source')
      .flatMap(([title, stage]) => (['low', 'high'] as const).map((version) => [title, version, stage] as const)),
  )('%s, %s', (_title, version, stage) => expect(roundTripFaults(made(stage, version)!)).toEqual([]));
});

it.skipIf(!corporaHere)('versions made of some real tunes', () => {
  const stages = corpusFiles().flatMap(({ text }) => {
    const book = readBook(text);
    return book.tunes.map((_, i) => scoreStage(book, i));
  });
  for (const stage of stages.filter((_, i) => i % 83 === 11)) {
    const text = made(stage, 'low');
    if (text !== null) expect([stage.score.title, roundTripFaults(text)]).toEqual([stage.score.title, []]);
  }
});
