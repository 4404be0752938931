// One slip, one finding: tokens of the demo's bass parts changed one at a time, and what the checks then find.
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, partStage, planStage } from '../../server/src/arrangement/index.ts';
import { type Finding, findingsOf } from '../../server/src/checks/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import { demoBooks } from './merging.ts';
import type { Random } from './random.ts';

const tables = makeTables(32 * 1024 * 1024);

/** What can slip: the tokens it happens to, in music unless said, and what becomes of one. */
const slips: readonly { readonly name: string; readonly in?: 'field'; readonly at: RegExp; readonly to: (token: string) => string }[] = [
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
  { name: 'a key of I:bullfiddle misspelt', in: 'field', at: /(?<=I:bullfiddle .*)\bversion=/g, to: () => 'verison=' },
  { name: 'a field whose value is wrong', in: 'field', at: /(?<=\nM:)\d\/\d/g, to: () => 'x' },
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

const lineAt = (text: string, at: number): string => text.slice(text.lastIndexOf('\n', at - 1) + 1, text.indexOf('\n', at));

/** Whether a place lies in a line of music: what stands in a remark or a text field is no slip. */
const isMusicLine = (text: string, at: number): boolean => !/^(%|[A-Za-z+]:)/.test(text.slice(text.lastIndexOf('\n', at - 1) + 1));

interface Mutant {
  readonly slip: string;
  readonly tune: (typeof basses)[number];
  readonly text: string;
  /** Where the token changed. */
  readonly at: number;
}

/** `count` slips, the kinds in turn, each at a place found by chance. */
function* mutants(count: number, random: Random): Generator<Mutant> {
  for (let done = 0; done < count; ) {
    const slip = slips[done % slips.length]!;
    const tune = random.pick(basses);
    const music = tune.text.slice(tune.from, tune.to);
    const places = [...music.matchAll(slip.at)].filter(({ index }) => slip.in === 'field' || isMusicLine(music, index));
    if (places.length === 0) continue;
    const place = random.pick(places);
    const at = tune.from + place.index;
    yield { slip: slip.name, tune, text: tune.text.slice(0, at) + slip.to(place[0]) + tune.text.slice(at + place[0].length), at };
    done++;
  }
}

/** Books of the demo with one slip each. */
export const slippedTexts = (count: number, random: Random): readonly string[] => [...mutants(count, random)].map(({ text }) => text);

/** One token changed: what slipped, the line it stands in now, and the codes that the slip brought. */
export interface Slipped {
  readonly slip: string;
  readonly line: string;
  readonly codes: readonly string[];
}

/** `count` slips, and what is found of each. */
export const slipped = (count: number, random: Random): readonly Slipped[] =>
  [...mutants(count, random)].map(({ slip, tune, text, at }) => {
    const codes = found(text, tune.index).map(({ code }) => code);
    return { slip, line: lineAt(text, at), codes: brought(codes, before.get(tune)!) };
  });

/**
 * Why a slip may give another number of findings than one; null if it should not.
 * A first bar that lacks a note reads as a pickup: every tune may begin with one, and nothing says that this one should not.
 */
export const excuse = ({ slip, codes, line }: Slipped): string | null =>
  slip === 'a note left out' && codes.length === 0 && isFirstBar(line) ? 'the first bar reads as a pickup' : null;

/** Whether this is the line of the kick-off, the one part of the demo that begins without a pickup. */
const isFirstBar = (line: string): boolean => line.endsWith('||');
