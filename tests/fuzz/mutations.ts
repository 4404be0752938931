// One slip, one finding: tokens of the demo's bass parts are changed one at a time, and what is found is counted. Arguments: mutations (500), seed (1).
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, partStage, planStage } from '../../server/src/arrangement/index.ts';
import { type Finding, findingsOf } from '../../server/src/checks/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import { demoBooks } from '../support/merging.ts';
import { seeded } from '../support/random.ts';

const count = Number(process.argv[2] ?? 500);
const random = seeded(Number(process.argv[3] ?? 1));
const tables = makeTables(32 * 1024 * 1024);

/** What can slip: the tokens it happens to, and what becomes of one. */
const slips: readonly { readonly name: string; readonly at: RegExp; readonly to: (token: string) => string }[] = [
  { name: 'a note twice as long', at: /(?<=[| ,])[A-Ga-g][,']*(?=[A-G ])/g, to: (note) => `${note}2` },
  { name: 'a note left out', at: /(?<=[| ,])[A-Ga-g][,']*\d?(?=[A-G ])/g, to: () => '' },
  { name: 'a bar line left out', at: /(?<=[A-G,\d ])\|(?=[A-G"])/g, to: () => '' },
  { name: 'three octaves too high', at: /(?<=[| ,])[A-G](?=\d?[ A-G|])/g, to: (note) => `${note.toLowerCase()}''` },
  { name: 'three octaves too low', at: /(?<=[| ,])[A-G],(?=\d?[ A-G|])/g, to: (note) => `${note},,,` },
  { name: 'a sign that means nothing', at: /(?<=[A-G,\d ])(?=[A-G])/g, to: () => '#' },
  { name: 'a decoration misspelt', at: /(?<=[|])(?=[A-G])/g, to: () => '!slied!' },
  { name: 'a quote not closed', at: /"(?=[A-G][^"\n]*\|)/g, to: () => '' },
  { name: 'a chord not closed', at: /(?<=[|])(?=[A-G])/g, to: () => '[' },
  { name: 'a slur not closed', at: /(?<=[|])(?=[A-G])/g, to: () => '(' },
  { name: 'a tie to another note', at: /(?<=\|[A-G],?\d?)(?=[A-G])/g, to: () => '-' },
  { name: 'a string the bass lacks', at: /(?<=[|])(?=[A-G])/g, to: () => '!sulC!' },
  { name: 'a key of I:bullfiddle misspelt', at: /(?<=I:bullfiddle .*)\bversion=/g, to: () => 'verison=' },
  { name: 'a field whose value is wrong', at: /(?<=\nM:)\d\/\d/g, to: () => 'x' },
];

const basses = demoBooks.flatMap((text) => {
  const book = readBook(text);
  return book.tunes.flatMap(({ at, tree }, index) =>
    partStage(book, index, defaultConfig).parts.some(({ kind }) => kind === 'bass')
      ? [{ text, index, from: at, to: at + tree.length }]
      : [],
  );
});

/** Findings of the tune by all checks, of the other tunes by those that need no fingering. */
function found(text: string, index: number): readonly Finding[] {
  const book = readBook(text);
  return book.tunes.flatMap((_, i) =>
    i === index ? findingsOf(planStage(book, i, defaultConfig, tables), 'plan') : findingsOf(partStage(book, i, defaultConfig), 'part'),
  );
}

const before = new Map(basses.map((tune) => [tune, found(tune.text, tune.index).map(({ code }) => code)]));

/** The codes that the slip brought. */
function brought(codes: readonly string[], known: readonly string[]): readonly string[] {
  const left = [...known];
  return codes.filter((code) => {
    const at = left.indexOf(code);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

const table = new Map(slips.map(({ name }) => [name, { none: 0, one: 0, more: 0, codes: new Map<string, number>() }]));
for (let done = 0; done < count; ) {
  const slip = slips[done % slips.length]!;
  const tune = random.pick(basses);
  const music = tune.text.slice(tune.from, tune.to);
  const places = [...music.matchAll(slip.at)];
  if (places.length === 0) {
    done += slips.every(({ at }) => !at.test(music)) ? 1 : 0;
    continue;
  }
  const place = random.pick(places);
  const at = tune.from + place.index;
  const mutant = tune.text.slice(0, at) + slip.to(place[0]) + tune.text.slice(at + place[0].length);
  const codes = brought(
    found(mutant, tune.index).map(({ code }) => code),
    before.get(tune)!,
  );
  const row = table.get(slip.name)!;
  row[codes.length === 0 ? 'none' : codes.length === 1 ? 'one' : 'more']++;
  const told = codes.join(' + ') || '-';
  row.codes.set(told, (row.codes.get(told) ?? 0) + 1);
  done++;
}

for (const [name, { none, one, more, codes }] of table) {
  console.log(`${name.padEnd(32)} none ${String(none).padStart(3)}  one ${String(one).padStart(3)}  more ${String(more).padStart(3)}`);
  for (const [code, times] of [...codes].sort((a, b) => b[1] - a[1]).slice(0, 6)) console.log(`    ${String(times).padStart(3)}  ${code}`);
}
const sum = (key: 'none' | 'one' | 'more'): number => [...table.values()].reduce((total, row) => total + row[key], 0);
console.log(`${count} mutations: ${sum('one')} gave one finding, ${sum('more')} more, ${sum('none')} none`);
