// The abc standard 2.1 (December 2011, abcnotation.com/wiki/abc:standard:v2.1), construct by construct: examples of our own with the notes that its text gives.
// Rows marked volatile, undefined, optional, nominal or loose are points that the text leaves open; server/docs/standard.md names what we hold there.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { note } from '@tonaljs/pitch-note';
import { describe, expect, it } from 'vitest';
import type { Accidental, KeyValue } from '../../server/src/abc/index.ts';
import { readBook } from '../../server/src/abc/index.ts';
import { toNumber } from '../../server/src/score/fraction.ts';
import type { PlayedVoice } from '../../server/src/score/index.ts';
import { playOut, readScore, signatureOf } from '../../server/src/score/index.ts';
import { scoreOf } from '../support/trees.ts';

interface Row {
  readonly section: string;
  readonly what: string;
  readonly abc: string;
  /** `midi:duration` by onset, `+` for chords, `r:` for rests, `|` between voices; with `@` each note has its own onset. */
  readonly notes: string;
  readonly status: string;
}

const folder = join(import.meta.dirname, 'standard');
const rows: readonly Row[] = readFileSync(join(folder, 'constructs.jsonl'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

const value = (text: string): number => {
  const [num, den = '1'] = text.split('/');
  return Number(num) / Number(den);
};

/** Notes that sound together, lowest first, in the order in which they begin. */
function chordsOf({ events }: PlayedVoice): string {
  const chords = new Map<number, { midi: number[]; duration: number }>();
  for (const { onset, duration, midi } of events) {
    const chord = chords.get(toNumber(onset)) ?? { midi: [], duration: toNumber(duration) };
    chord.midi.push(midi);
    chords.set(toNumber(onset), chord);
  }
  const sorted = [...chords].sort(([a], [b]) => a - b);
  return sorted.map(([, { midi, duration }]) => `${midi.sort((a, b) => a - b).join('+')}:${duration.toFixed(9)}`).join(' ');
}

const wanted = (voice: string): string =>
  voice
    .trim()
    .split(/\s+/)
    .filter((one) => one !== '' && !one.startsWith('r:'))
    .map((one) => one.split(':'))
    .map(([midi, duration]) => `${midi!.split('+').sort().join('+')}:${value(duration!).toFixed(9)}`)
    .join(' ');

const placed = ({ events }: PlayedVoice): readonly string[] =>
  events.map((e) => `${e.midi}:${toNumber(e.duration)}@${toNumber(e.onset)}`).sort();

const wantedPlaces = (notes: string): readonly string[] =>
  notes
    .split(' ')
    .map((one) => /^(\d+):(.+)@(.+)$/.exec(one)!)
    .map(([, midi, duration, onset]) => `${midi}:${value(duration!)}@${value(onset!)}`)
    .sort();

describe('abc 2.1', () => {
  it.each(rows.map((row) => [`${row.section} ${row.what} [${row.status}]`, row] as const))('%s', (_, row) => {
    const book = readBook(row.abc);
    const { voices } = playOut(readScore(book.header, book.tunes[0]!.tree));
    if (row.notes.includes('@')) return expect(placed(voices[0]!)).toEqual(wantedPlaces(row.notes));
    const heard = voices.map(chordsOf).filter((voice) => voice !== '');
    expect(heard).toEqual(
      row.notes
        .split('|')
        .map(wanted)
        .filter((voice) => voice !== ''),
    );
  });
});

const keys: Record<string, { sharps: number; acc: Record<string, Accidental> }> = JSON.parse(
  readFileSync(join(folder, 'keys.json'), 'utf8'),
);

describe('the 105 key spellings of section 3.1.14', () => {
  it('are all there', () => expect(Object.keys(keys)).toHaveLength(105));

  it.each(Object.entries(keys))('K:%s', (spelling, { acc }) => {
    const { key, errors } = scoreOf(`X:1\nT:t\nK:${spelling}\n`);
    expect(errors).toEqual([]);
    const alter = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };
    const letters = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
    expect(signatureOf(key)).toEqual(letters.map((letter) => (acc[letter] ? alter[acc[letter]] : 0)));
  });

  it('give scales that @tonaljs/pitch-note knows by the same pitches', () => {
    for (const spelling of Object.keys(keys)) {
      const score = scoreOf(`X:1\nT:t\nL:1/8\nK:${spelling}\nCDEFGAB\n`);
      for (const { heads } of score.voices[0]!.notes) {
        const { letter, alter, octave, midi } = heads[0]!;
        expect(note(`${letter}${alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter)}${octave}`).midi).toBe(midi);
      }
    }
  });

  it.each([
    ['D dorian', 'Ddor'],
    ['EPHRYGIAN', 'EPhr'],
    ['A minor', 'Am'],
    ['C major', 'C'],
    ['F# mixolydian', 'F#Mix'],
    ['Bb', 'Bb'],
  ])('%s is %s', (one, other) => {
    const signature = (text: string): readonly number[] => signatureOf(scoreOf(`X:1\nT:t\nK:${text}\n`).key as KeyValue);
    expect(signature(one)).toEqual(signature(other));
  });
});
