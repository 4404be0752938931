// The vocabulary of offers and explanations covers what the reader knows.
import { describe, expect, it } from 'vitest';
import { decorationNames, readBook } from '../../../server/src/abc/index.ts';
import { scoreStage } from '../../../server/src/arrangement/index.ts';
import { decorationEntries } from '../../../server/src/features/vocabulary/decorations.ts';
import { fieldEntries } from '../../../server/src/features/vocabulary/fields.ts';
import { clefEntries, keyEntries, meterEntries, tempoEntries, unitEntries } from '../../../server/src/features/vocabulary/keys.ts';
import { signatureOf } from '../../../server/src/score/index.ts';

/** Errors of a tune whose header has this field. */
function errorsWith(field: string): readonly string[] {
  const key = field.startsWith('K:') ? '' : 'K:D\n';
  return scoreStage(readBook(`X:1\nT:t\n${field}\n${key}D|\n`), 0).score.errors.map((error) => error.code);
}

describe('vocabulary', () => {
  it('explains every decoration of the standard', () => {
    const words = new Set(decorationEntries.map((entry) => entry.word));
    expect([...decorationNames].filter((name) => !words.has(name))).toEqual([]);
  });
  it('has each word once', () => {
    for (const list of [decorationEntries, fieldEntries, keyEntries, meterEntries])
      expect(new Set(list.map((entry) => entry.word)).size).toBe(list.length);
  });
  it('counts the sharps and flats of keys rightly', () => {
    const counts = ['no', 'one', 'two', 'three', 'four', 'five'];
    for (const { word, meaning } of keyEntries.filter((entry) => /(sharps?|flats?)/.test(entry.meaning) && entry.word !== 'Hp')) {
      const { key } = scoreStage(readBook(`X:1\nT:t\nK:${word}\nD|\n`), 0).score;
      const fifths = signatureOf(key).reduce((sum, alter) => sum + alter, 0);
      const [, count, sign] = /(no|one|two|three|four|five) (sharps? or flats?|sharps?|flats?)/.exec(meaning)!;
      expect(counts.indexOf(count!) * (sign!.startsWith('flat') ? -1 : 1) + 0, word).toBe(fifths);
    }
  });
  it('offers nothing that the reader refuses', () => {
    const fields = [
      ...keyEntries.map(({ word }) => `K:${word}`),
      ...clefEntries.map(({ word }) => `K:D ${word}`),
      ...meterEntries.map(({ word }) => `M:${word}`),
      ...unitEntries.map(({ word }) => `L:${word}`),
      ...tempoEntries.map(({ word }) => `Q:${word}`),
    ];
    expect(fields.filter((field) => errorsWith(field).length > 0).map((field) => `${field} ${errorsWith(field)}`)).toEqual([]);
  });
});
