// Reading a voice as a bass part: octave, ties, slurs, slides, graces, pins, repeats.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, readPart, toTask } from '../../../server/src/arrangement/index.ts';
import { readScore } from '../../../server/src/score/index.ts';
import { bassPart, tune } from './support.ts';

const sounding = (text: string) => bassPart(text).notes.map((note) => note.sounding.join('+'));
const attacks = (body: string) => bassPart(tune('L:1/4 ; K:G clef=bass', body)).notes.map((note) => note.articulation);

describe('which voices are bass parts', () => {
  const kindOf = (fields: string) => {
    const book = readBook(tune(fields, 'D,'));
    const score = readScore(book.header, book.tunes[0]!.tree);
    return readPart(score, score.voices[0]!.id, defaultConfig).kind;
  };
  it.each([
    ['K:D clef=bass', 'bass'],
    ['K:D clef=tenor', 'bass'],
    ['K:D clef=bass-8', 'bass'],
    ['K:D', 'melody'],
    ['I:bullfiddle part=bass ; K:D', 'bass'],
    ['I:bullfiddle part=melody ; K:D clef=bass', 'melody'],
    ['I:bullfiddle tune=x version=low-easy ; K:D', 'bass'],
    ['I:bullfiddle tune=x version=source ; K:D', 'melody'],
  ])('%s is a %s part', (fields, kind) => expect(kindOf(fields)).toBe(kind));
});

describe('sounding octave', () => {
  it.each([
    ['K:D clef=bass', 'D,A,,G,E,,'],
    ['K:D clef=bass-8', 'D,A,,G,E,,'],
    ['K:D clef=bass transpose=-12', 'D,A,,G,E,,'],
    ['K:D clef=bass octave=-1', 'D A, G E,'],
  ])('%s: %s sounds the open strings', (key, body) => expect(sounding(tune(`L:1/4 ; ${key}`, body))).toEqual(['38', '33', '43', '28']));
  it('another transposition says nothing of the octave', () =>
    expect(sounding(tune('L:1/4 ; K:D clef=bass transpose=2', 'D,'))).toEqual(['40']));
});

describe('attacks', () => {
  it('merges ties and keeps the last tied end', () => {
    const part = bassPart(tune('L:1/4 ; K:C clef=bass', 'C,-C,- | C, D,'));
    expect(part.notes.map((n) => [n.id, n.tied, n.duration])).toEqual([
      [0, [1, 2], { num: 3, den: 4 }],
      [3, [], { num: 1, den: 4 }],
    ]);
    expect(part.notes[0]!.to).toBeGreaterThan(part.notes[0]!.note.to);
  });
  it('strikes only the new head of a half-tied double stop, the other held', () => {
    const part = bassPart(tune('L:1/4 ; K:C clef=bass', '[D,-A,] [D,B,]'));
    expect(part.notes.map((n) => [n.sounding, n.held])).toEqual([
      [[38, 45], []],
      [[47], [0]],
    ]);
  });
  it('reads a slur up as hammer-on and down as pull-off', () =>
    expect(attacks('(D,E,) (E,D,)')).toEqual(['pluck', 'hammer', 'pluck', 'pull']));
  it('reads a dotted slur as a phrase', () => expect(attacks('.(D,E,F,)')).toEqual(['pluck', 'pluck', 'pluck']));
  it('reads an unslurred slide as plucked and a slurred one as gliding', () =>
    expect(attacks('D,!slide!A, (B,!slide!D)')).toEqual(['pluck', 'scoop', 'pluck', 'glide']));
  it('slurs on from a tied note', () => expect(attacks('D,-(D,E,)')).toEqual(['pluck', 'hammer']));
  it('reads left-hand pizzicato and dead notes', () => expect(attacks('!plus!D, !dead!E,')).toEqual(['left-hand', 'dead']));
  it('gives graces their time from the note they ornament', () => {
    const task = toTask(bassPart(tune('L:1/4 ; Q:1/4=60 ; K:C clef=bass', '({C,}D,) E,')));
    expect(task.notes.map((n) => [n.onset, n.duration, n.articulation])).toEqual([
      [0, 80_000, 'pluck'],
      [80_000, 920_000, 'hammer'],
      [1_000_000, 1_000_000, 'pluck'],
    ]);
  });
});

describe('time', () => {
  it('is in whole microseconds by the tempo, over changes', () => {
    const task = toTask(bassPart(tune('L:1/8 ; Q:1/4=90 ; K:C clef=bass', 'C,D,E,|[Q:1/4=60]F,G,')));
    expect(task.notes.map((n) => n.onset)).toEqual([0, 333_333, 666_667, 1_000_000, 1_500_000]);
    expect(task.timed).toBe('judged');
  });
  it('is not judged without a tempo', () => {
    const task = toTask(bassPart(tune('L:1/8 ; Q:"Slow" ; K:C clef=bass', 'C,D,')));
    expect(task.timed).toBe('untimed');
    expect(task.notes[1]!.onset).toBe(250_000);
  });
});

describe('pins', () => {
  const pins = (body: string) =>
    bassPart(tune('L:1/4 ; K:C clef=bass', body)).notes.map((n) =>
      n.pins.map((p) => `${p.finger?.value ?? ''}${p.string?.value ?? ''}${p.harmonic ? 'h' : ''}`),
    );
  const problems = (body: string) => bassPart(tune('L:1/4 ; K:C clef=bass', body)).problems.map((p) => p.code);
  it('reads fingers and strings', () => expect(pins('!1!A, !thumb!!sulD!D !0!D,')).toEqual([['1'], ['TD'], ['0']]));
  it('carries a string text to the next one', () =>
    expect(pins('"^sul D"A, B, "_sul G"A, !sulD!A, A,')).toEqual([['D'], ['D'], ['G'], ['D'], ['G']]));
  it('carries a string text to the end of the part only', () =>
    expect(
      bassPart(tune('L:1/4 ; K:C clef=bass', 'P:A\n"^sul D"A, B,|\nP:B\nA,|')).notes.map((n) => n.pins[0]!.string?.value ?? null),
    ).toEqual(['D', 'D', null]));
  it('reads symbol lines', () => expect(pins('A, B, C\ns: !1!!sulD! * !4!')).toEqual([['1D'], [''], ['4']]));
  it('reads pins inside a double stop, and tells of those before it', () => {
    expect(pins('[!1!A,!0!D,]')).toEqual([['1', '0']]);
    expect(problems('!1![A,D,]')).toEqual(['pin.contradiction']);
  });
  it('reads a circle as the open string or as a harmonic', () => expect(pins('!open!D, !open!D')).toEqual([['0'], ['h']]));
  it('tells two fingers on one note, a missing string, a chord symbol', () => {
    expect(problems('!1!!2!A,')).toEqual(['pin.contradiction']);
    expect(problems('!sulC!C,')).toEqual(['pin.unknown-string']);
    expect(problems('"sul D"A,')).toEqual(['pin.chord-symbol']);
  });
});

describe('repeats', () => {
  const joins = (body: string) => {
    const { jumps, breaks } = bassPart(tune('M:2/4 ; L:1/4 ; K:C clef=bass', body));
    return { jumps: jumps.map((j) => [j.from, j.to, `${j.gap.num}/${j.gap.den}`]), breaks };
  };
  it('jumps back from the end of a repeat', () => expect(joins('|:C,D,|E,F,:|')).toEqual({ jumps: [[3, 0, '1/4']], breaks: [] }));
  it('jumps over the first ending, which the second does not follow', () =>
    expect(joins('|:C,D,|1E,F,:|2G,A,|]')).toEqual({
      jumps: [
        [3, 0, '1/4'],
        [1, 4, '1/4'],
      ],
      breaks: [4],
    }));
  it('plays parts in their order', () => {
    const { jumps, breaks } = bassPart(tune('P:BA ; L:1/4 ; K:C clef=bass', 'P:A\nC,D,|\nP:B\nE,F,|]'));
    expect(jumps.map((j) => [j.from, j.to])).toEqual([[3, 0]]);
    expect(breaks).toEqual([2]);
  });
});

it('takes a hand place from the next note on', () => {
  const part = bassPart(tune('L:1/4 ; K:C clef=bass', 'C,[I:bullfiddle hand-stop=5]D,E,'));
  expect(part.notes.map((n) => n.handStop)).toEqual([null, 5, null]);
});
