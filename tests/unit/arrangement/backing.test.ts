// A bass line from the chords: roots and fifths worked out by hand (common practice: the bass plays 1 and 3 of four, 1 and 2 of two, 1 of three), and suggested chords against printed ones.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import {
  backing,
  chordsOf,
  defaultConfig,
  driftOf,
  planStage,
  readChordName,
  scoreStage,
  settleSuggestions,
  suggestChords,
  suggestionEdits,
} from '../../../server/src/arrangement/index.ts';
import type { ScoreStage } from '../../../server/src/arrangement/types.ts';
import { findingsOf } from '../../../server/src/checks/index.ts';
import { toNumber } from '../../../server/src/score/fraction.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { backingFaults } from '../../support/arranging.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { bodyOf, stageOf, tools, tune } from './support.ts';

const plain = { number: 2, keyShift: 0, tempo: null, pins: 'none' } as const;

function lineOf(source: ScoreStage, request: Partial<Parameters<typeof backing>[1]> = {}) {
  const made = backing(source, { ...plain, ...request }, tools);
  if (made.kind === 'impossible') throw new Error(made.message);
  return made;
}
const backed = (fields: string, body: string, request = {}): string =>
  bodyOf(lineOf(stageOf(tune(`L:1/8 ; ${fields}`, body)), request).text).replaceAll('\n', ' ');

describe('roots and fifths', () => {
  it.each([
    ['4/4', 'K:D', '"D"d8|"A"e8|', '"D"D,4 A,,4|"A"A,,4 E,,4|', 'the fifth lies below where the instrument has it'],
    ['2/2', 'K:G', '"G"g8|"C"e8|', '"G"G,,4 D,4|"C"C,4 G,,4|', 'below G1 there is no D: it lies above'],
    ['2/4', 'K:A', '"A"a4|"E"e4|', '"A"A,,2 E,,2|"E"E,,2 B,,2|', 'in two, on 1 and 2'],
    ['4/4', 'K:D', '"D"d4"G"g4|"A7"e4"D"d4|', '"D"D,4 "G"G,,4|"A7"A,,4 "D"D,4|', 'a new chord begins with its root'],
    ['4/4', 'K:D', '"D"d2"G"g2 a4|', '"D"D,2"G"G,,2 D,4|', 'a change between the beats is played where it stands'],
    ['3/4', 'K:G', '"G"g6|g6|"D"d6|"G"g6|', '"G"G,,6|D,6|"D"D,6|"G"G,,6|', 'on 1 of three, by turns while the chord stays'],
    ['6/8', 'K:Em', '"Em"e6|"D"d3 "B7"B3|', '"Em"E,,3 B,,3|"D"D,3 "B7"B,,3|', 'a jig in two'],
    ['9/8', 'K:G', '"G"g9|"G"g9|', '"G"G,,8-G,,|"G"D,8-D,|', 'a slip jig on 1: nine eighths are no one note'],
    ['4/4', 'K:D', '"D/F#"d8|"Bdim"d8|"Caug"e8|', '"D/F#"F,,4 A,,4|"Bdim"B,,4 =F,,4|"Caug"=C,4 ^G,,4|', 'bass notes and altered fifths'],
    ['4/4', 'K:D', 'A2|"D"d8|"N.C."d8|"D"d6|', 'z2|"D"D,4 A,,4|"N.C."z8|"D"D,4 A,,2|', 'rests in the pickup and where no chord sounds'],
    ['4/4', 'K:D', '|:"D"d8|1"A"e8:|2"D"d8|]', '|:"D"D,4 A,,4|[1 "A"A,,4 E,,4:|[2 "D"D,4 A,,4|]', 'repeats and endings are the tune’s'],
  ])('%s %s %s: %s (%s)', (meter, fields, body, line, _why) => expect(backed(`M:${meter} ; ${fields}`, body)).toBe(line));
  it('moves with the key', () => expect(backed('M:4/4 ; K:D', '"D"d8|"Bm"d8|', { keyShift: 5 })).toBe('"G"G,,4 D,4|"Em"E,,4 B,,4|'));
  it('says so where no chord can be read', () =>
    expect(backing(stageOf(tune('K:D', 'z4|z4|')), plain, tools)).toMatchObject({ kind: 'impossible' }));
  it('is pinned, playable and in step with its source, and the checks find nothing', () => {
    const source = tune(
      'I:bullfiddle tune=reel version=source ; M:2/2 ; L:1/8 ; Q:1/2=100 ; K:D',
      'P:A\n|:"D"d8|"Bm"d8|"G"g8|"A"a4"A7"a4:|',
    );
    const { text } = lineOf(stageOf(source), { pins: 'all' });
    const stage = planStage(readBook(`${source}\n${text}`), 1, defaultConfig, tools.tables);
    expect(stage.fingered.map((one) => one.plan.playable)).toEqual([true]);
    expect(findingsOf(stage, 'plan')).toEqual([]);
    expect(driftOf(stageOf(source), stage)).toEqual([]);
    expect(text).toContain('version=backing');
  });
});

describe('chord symbols', () => {
  it.each(['Fine', 'Break', 'A part', 'sul G', 'Coda', 'Dal segno', 'G or Em'])('%s is a word', (text) =>
    expect(readChordName(text)).toBeNull(),
  );
  it.each(['D', 'Em', 'A7', 'F#m7', 'Bbmaj7', 'Gsus4', 'C6', 'D/F#', '(D)', 'E7#9', 'Am7b5', 'N.C.'])('%s is a chord', (text) =>
    expect(readChordName(text)).not.toBeNull(),
  );
});

describe('suggested chords', () => {
  const names = (fields: string, body: string) =>
    suggestChords(stageOf(tune(`L:1/8 ; ${fields}`, body)).score.voices[0]!).map((one) => one.name);
  it.each([
    ['M:4/4 ; K:D', 'D2F2A2F2|G2B2d2B2|A2c2e2c2|d4D4|', ['D', 'G', 'A', 'D'], 'broken chords are the chords'],
    ['M:4/4 ; K:D', 'DEFG AGFE|D2F2A4|', ['D'], 'a scale run changes no chord'],
    ['M:6/8 ; K:Em', 'EGB EGB|DFA DFA|EGB E3|', ['Em', 'D', 'Em'], 'in minor the chord on the flat seventh is at hand'],
    ['M:4/4 ; K:Am', 'A2c2e2c2|B2^G2E2^G2|A8|', ['Am', 'E', 'Am'], 'the fifth degree of minor is major where its third is raised'],
    ['M:3/4 ; K:G', 'E2|G2B2d2|e2c2e2|d2B2d2|G6|', ['G', 'C', 'G'], 'a pickup has none'],
  ])('%s: %s gives %j (%s)', (fields, body, wanted, _why) => expect(names(fields, body)).toEqual(wanted));

  const melody = tune('M:4/4 ; L:1/8 ; K:D', 'A2|"^slowly"D2F2A2F2|G2B2d2B2|A2c2e2c2|\nd4D2|');
  it('are written as text that says so, before the notes they begin with', () => {
    const marked = applyEdits(melody, suggestionEdits(stageOf(melody)));
    expect(bodyOf(marked)).toBe(
      '% Chords with a question mark are suggestions: made by rule from the melody, not part of the tune.\n' +
        'A2|"^slowly""^?D"D2F2A2F2|"^?G"G2B2d2B2|"^?A"A2c2e2c2|\n"^?D"d4D2|',
    );
    expect(suggestionEdits(stageOf(marked))).toEqual([]);
    expect(applyEdits(marked, settleSuggestions(stageOf(marked), 'remove'))).toBe(melody);
    const kept = applyEdits(marked, settleSuggestions(stageOf(marked), 'keep'));
    expect(bodyOf(kept)).toBe('A2|"^slowly""D"D2F2A2F2|"G"G2B2d2B2|"A"A2c2e2c2|\n"D"d4D2|');
    expect(settleSuggestions(stageOf(kept), 'remove')).toEqual([]);
  });
  it('stay marked in the line made from them, whether they stand in the melody or not', () => {
    const made = lineOf(stageOf(melody));
    expect(made.chords).toBe('suggested');
    expect(bodyOf(made.text).split('\n').slice(1).join(' ')).toBe('z2|"^?D"D,4 A,,4|"^?G"G,,4 D,4|"^?A"A,,4 E,,4| "^?D"D,4 A,,2|');
    const marked = applyEdits(melody, suggestionEdits(stageOf(melody)));
    expect(lineOf(stageOf(marked)).text).toBe(made.text);
  });
  it('go over a tune that has chords nowhere', () => expect(suggestionEdits(stageOf(tune('M:4/4 ; L:1/8 ; K:D', '"D"D8|')))).toEqual([]));
});

const realTunes = (): readonly ScoreStage[] =>
  corpusFiles()
    .flatMap(({ text }) => {
      const book = readBook(text);
      return book.tunes.map((_, i) => scoreStage(book, i));
    })
    .filter((stage) => stage.score.voices[0] !== undefined);
const chordCount = (stage: ScoreStage): number => chordsOf(stage.score.voices[0]!).length;
const chorded = (): readonly ScoreStage[] => realTunes().filter((stage) => chordCount(stage) > 3);

it.skipIf(!corporaHere)('suggestions over real tunes without chords change no note, and taken out again leave the text as it was', () => {
  const notes = (stage: ScoreStage) =>
    stage.score.voices.flatMap((voice) => voice.notes.map((note) => [note.onset, note.heads.map((h) => h.midi)]));
  const bare = realTunes().filter((stage) => chordCount(stage) === 0 && suggestionEdits(stage).length > 0);
  expect(bare.length).toBeGreaterThan(20);
  for (const { book, text, score } of bare) {
    const header = book.header.lines.map(({ line }) => line.text).join('');
    const alone = stageOf(header + text);
    const marked = stageOf(header + applyEdits(alone.text, suggestionEdits(alone)));
    expect([score.title, notes(marked)]).toEqual([score.title, notes(alone)]);
    expect(applyEdits(marked.text, settleSuggestions(marked, 'remove'))).toBe(alone.text);
    const kept = stageOf(header + applyEdits(marked.text, settleSuggestions(marked, 'keep')));
    expect(chordCount(kept)).toBe(chordCount(marked));
  }
});

/** Share of eighths, from the first written chord on, over which the suggestion names the written root, and the written root and kind. */
function agreement(stages: readonly ScoreStage[]): { readonly root: number; readonly kind: number } {
  let [all, root, kind] = [0, 0, 0];
  for (const stage of stages) {
    const voice = stage.score.voices[0]!;
    const written = chordsOf(voice).map((chord) => ({ at: toNumber(chord.onset), name: readChordName(chord.text) }));
    const made = suggestChords(voice).map((chord) => ({ at: toNumber(chord.onset), name: readChordName(chord.name) }));
    const end = toNumber(voice.bars.at(-1)!.onset);
    for (let at = written[0]!.at; at < end; at += 1 / 8) {
      const a = written.findLast((one) => one.at <= at)?.name;
      const b = made.findLast((one) => one.at <= at)?.name;
      if (a === undefined || a === null || a === 'none') continue;
      all++;
      if (b === undefined || b === null || b === 'none') continue;
      const same = a.root.letter === b.root.letter && a.root.alter === b.root.alter;
      root += same ? 1 : 0;
      kind += same && a.minor === b.minor ? 1 : 0;
    }
  }
  return { root: root / all, kind: kind / all };
}

describe.skipIf(!corporaHere)('over tunes printed with chords', () => {
  it('on the half that no cost was chosen by, suggestions name the printed root more often than one chord on the tonic throughout would', () => {
    const stages = chorded().filter((_, i) => i % 2 === 1);
    const { root, kind } = agreement(stages);
    console.log(
      `suggested chords over ${stages.length} tunes: the printed root ${(root * 100).toFixed(1)} %, root and kind ${(kind * 100).toFixed(1)} % of the time`,
    );
    expect(root).toBeGreaterThan(tonicShare(stages));
  });
  it('a sample of lines is playable and has no error', () => {
    for (const source of chorded().filter((_, i) => i % 41 === 3))
      expect([source.score.title, backingFaults(source)]).toEqual([source.score.title, []]);
  });
});

/** Share of eighths over which the printed chord's root is the key's tonic: what saying the tonic throughout would score. */
function tonicShare(stages: readonly ScoreStage[]): number {
  let [all, tonic] = [0, 0];
  for (const stage of stages) {
    const voice = stage.score.voices[0]!;
    const written = chordsOf(voice);
    written.forEach((chord, i) => {
      const name = readChordName(chord.text);
      if (name === null || name === 'none') return;
      const length = toNumber(written[i + 1]?.onset ?? voice.bars.at(-1)!.onset) - toNumber(chord.onset);
      const home = stage.score.key.tonic;
      all += length;
      tonic += name.root.letter === home?.letter && name.root.alter === home.alter ? length : 0;
    });
  }
  console.log(`the tonic throughout would name ${((tonic / all) * 100).toFixed(1)} %`);
  return tonic / all;
}
