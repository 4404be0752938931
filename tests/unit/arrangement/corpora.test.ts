// Arranging real tunes: a few here, all of them in tests/fuzz/arranging.ts.
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { scoreStage, versionOf } from '../../../server/src/arrangement/index.ts';
import { arrangedFaults, updateFaults } from '../../support/arranging.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { seeded } from '../../support/random.ts';
import { tune } from './support.ts';

const own = tune(
  'M:6/8 ; L:1/8 ; Q:3/8=120 ; K:Em',
  'P:A\n|:B|EGB Bge|dBd e2f|gfg edB|AFD D2:|\nP:B\n|:B|efg gfe|dBd ~B3|(3efg fe dBA|1 GEE E2:|2 GEE E3|]',
);
const sample = () => [
  scoreStage(readBook(own), 0),
  ...corpusFiles()
    .flatMap(({ text }) => readBook(text).tunes.map((_, i) => ({ text, i })))
    .filter((_, i) => i % 447 === 7)
    .map(({ text, i }) => scoreStage(readBook(text), i)),
];

it('low and high versions of a jig with pickups, endings and a triplet', () => {
  const stage = scoreStage(readBook(own), 0);
  expect(arrangedFaults(stage, 'low')).toEqual([]);
  expect(arrangedFaults(stage, 'high')).toEqual([]);
});
it.skipIf(!corporaHere)(
  'low and high versions of real tunes have no error, keep intervals in each bar, and come out the same twice',
  () => {
    for (const stage of sample())
      for (const version of ['low', 'high'] as const)
        expect([stage.score.title, arrangedFaults(stage, version)]).toEqual([stage.score.title, []]);
  },
);
it('a low and a high version of the demo’s melodies', () => {
  const folder = new URL('../../../media/demo/', import.meta.url);
  const books = readdirSync(folder)
    .filter((name) => name.endsWith('.abc'))
    .map((name) => readBook(readFileSync(new URL(name, folder), 'utf8')));
  const sources = books.flatMap((book) =>
    book.tunes.map((_, i) => scoreStage(book, i)).filter((stage) => versionOf(stage)?.version === 'source'),
  );
  expect(sources.length).toBeGreaterThan(3);
  sources.slice(1, 3).forEach((stage, i) => {
    const version = i % 2 === 0 ? 'low' : 'high';
    expect([stage.score.title, arrangedFaults(stage, version)]).toEqual([stage.score.title, []]);
  });
});
it('an update never loses what a player changed', () => {
  const random = seeded(5);
  const stage = scoreStage(readBook(own), 0);
  for (let i = 0; i < 12; i++) expect(updateFaults(stage, random.pick(['low', 'high'] as const), random)).toEqual([]);
});
