// Transposing in the text: there and back restores it; pins go along where a hand can take them.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, partStage, scoreStage, settlePins, transposeEdits } from '../../../server/src/arrangement/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { transposeFaults } from '../../support/arranging.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { bodyOf, planned, stageOf, tune } from './support.ts';

const transpose = (text: string, by: number) => {
  const stage = partStage(readBook(text), 0, defaultConfig);
  const { edits, pins } = transposeEdits(stage, by);
  return { text: applyEdits(stage.text, edits), pins };
};
const pitches = (text: string): readonly number[] =>
  stageOf(text).score.voices.flatMap((v) => v.notes.flatMap((n) => n.heads.map((h) => h.midi)));

describe('notes, keys and chords', () => {
  const text = tune('M:4/4 ; L:1/4 ; K:D clef=bass', '"D"D,^G,"A7/C#"=CA,|[K:Bm]"Bm"B,_B,[DF]{e}c\'|[K:D ^g]G2G2|]');
  it('spells the new key and keeps written accidentals written', () => {
    const up = transpose(text, 5).text;
    expect(up).toContain('K:G clef=bass');
    expect(bodyOf(up)).toBe('"G"G,^C"D7/F#"=FD|[K:Em]"Em"E_E[GB]{a}f\'|[K:G ^c]c2c2|]');
  });
  it.each([-12, -7, -5, -3, -2, -1, 1, 2, 3, 4, 5, 7, 12])('%i semitones and back restores the text', (by) => {
    const there = transpose(text, by).text;
    expect(pitches(there)).toEqual(pitches(text).map((p) => p + by));
    expect(transpose(there, -by).text).toBe(text);
  });
  it('writes the accidentals where no key says them', () => {
    expect(bodyOf(transpose(tune('L:1/4 ; K:none', 'B_BB^F|'), 2).text)).toBe('^c=cc^G|');
    expect(bodyOf(transpose(tune('L:1/4 ; K:clef=bass ^f', 'CFE,F|'), 5).text)).toBe('=FBA,B|');
  });
  it.skipIf(!corporaHere)('moves every note of real tunes by the same interval, and back', () => {
    const books = corpusFiles().map(({ text: book }) => readBook(book));
    const stages = books.flatMap((book) => book.tunes.map((_, i) => scoreStage(book, i))).filter((_, i) => i % 90 === 0);
    for (const stage of stages)
      for (const by of [5, -3]) expect([stage.score.title, transposeFaults(stage, by)]).toEqual([stage.score.title, []]);
  });
});

describe('pins', () => {
  const moved = (body: string, by: number) => {
    const made = transpose(tune('L:1/4 ; K:C clef=bass', body), by);
    return { body: bodyOf(made.text), pins: made.pins.map((pin) => `${pin.fate}: ${pin.message}`) };
  };
  it('a fourth up is the same fingering a string higher', () =>
    expect(moved('!1!!sulD!E,"^sul A"C,', 5)).toEqual({
      body: '!1!!sulG!A,"^sul D"F,',
      pins: ['moved: D string becomes G string, the same stop and finger.'],
    }));
  it('a fourth down again restores it', () =>
    expect(moved('!1!!sulG!A,"^sul D"F,', -5).body.replace('_B', 'B')).toBe('!1!!sulD!E,"^sul A"C,'));
  it('lists what is lost', () =>
    expect(moved('!0!G,!1!!sulG!A,', 2)).toEqual({
      body: 'A,!1!!sulG!B,',
      pins: ['lost: !0! is lost: no open string has the new pitch.'],
    }));
  it('leaves the other pins of a symbol line under their notes', () => expect(moved('G,A,\ns: !0! !1!', 2).body).toBe('A,B,\ns: * !1!'));
  it('takes out, and tells, what no hand follows any more', () => {
    const text = tune('L:1/4 ; Q:1/4=60 ; K:C clef=bass', '(!1!!sulG!D!4!F)|C');
    expect(planned(text).fingered[0]!.plan.playable).toBe(true);
    const down = transpose(text, -6).text;
    const { edits, pins } = settlePins(planned(down));
    expect(pins).toHaveLength(2);
    for (const pin of pins) expect(pin.message).toContain('no hand follows them in the new key');
    const settled = applyEdits(down, edits);
    expect(settled).not.toContain('!');
    expect(settlePins(planned(settled)).pins).toEqual([]);
  });
  it('a stopped note that becomes the open string loses its finger', () =>
    expect(moved('!1!!sulG!A,', -2)).toEqual({ body: 'G,', pins: ['lost: !1!!sulG! is lost: the new pitch is the open string.'] }));
});
