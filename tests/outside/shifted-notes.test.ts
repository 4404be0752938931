// Every tune of the corpora, transposed and re-spelled in its text and read again, held against @tonaljs/pitch-note 6.1.0: names, MIDI numbers, and intervals as steps on the line of fifths.
// That every corpus file prints back, and that formatting leaves its notes, stand in tests/unit/abc/properties.test.ts and tests/unit/features/format.test.ts.
import { coordToNote, note } from '@tonaljs/pitch-note';
import { expect, it } from 'vitest';
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, partStage, transposeEdits } from '../../server/src/arrangement/index.ts';
import type { PartStage } from '../../server/src/arrangement/types.ts';
import { toText } from '../../server/src/score/fraction.ts';
import type { Head } from '../../server/src/score/types.ts';
import { applyEdits, type Edit } from '../../server/src/text/span.ts';
import { corporaHere, corpusFiles } from '../support/corpora.ts';

const stages = (): readonly PartStage[] =>
  corpusFiles().flatMap(({ text }) => {
    const book = readBook(text);
    return book.tunes.map((_, i) => partStage(book, i, defaultConfig));
  });

/** The tune of a stage after edits, read again under the same file header. */
function edited(stage: PartStage, edits: readonly Edit[]): PartStage {
  const header = stage.book.header.lines.map(({ line }) => line.text).join('');
  return partStage(readBook(header + applyEdits(stage.text, edits)), 0, defaultConfig);
}

interface Written {
  readonly head: Head;
  /** Where the pitch stands in the text. */
  readonly from: number;
  readonly to: number;
  /** By scientific pitch notation, from the letter in the text and the alteration that was read. */
  readonly name: string;
}

/** Written pitches in the order of the score; heads that a macro made have no text of their own and are left out. */
function writtenIn({ score, text }: PartStage): readonly Written[] {
  return score.voices.flatMap((voice) =>
    voice.notes.flatMap(({ heads }) =>
      heads.flatMap((head) => {
        const pitch = /(?:\^\^?|__?|=)?([A-Ga-g])([,']*)/y;
        pitch.lastIndex = head.from;
        const found = pitch.exec(text);
        if (found === null) return [];
        const letter = found[1]!;
        // abc 2.1, 4.1: C is middle C (C4), c the octave above; each comma lowers, each apostrophe raises.
        const octave = (letter < 'a' ? 4 : 5) + [...found[2]!].reduce((sum, sign) => sum + (sign === ',' ? -1 : 1), 0);
        const signs = (head.alter < 0 ? 'b' : '#').repeat(Math.abs(head.alter));
        return [{ head, from: head.from, to: pitch.lastIndex, name: `${letter.toUpperCase()}${signs}${octave}` }];
      }),
    ),
  );
}

/** What sounds when, apart from how it is spelled. */
const soundsIn = ({ score }: PartStage): readonly string[] =>
  score.voices.flatMap((voice) =>
    voice.notes.map(
      ({ onset, heads }) => `${toText(onset)} ${heads.map(({ midi, duration, tied }) => `${midi} ${toText(duration)} ${tied}`)}`,
    ),
  );

/** The MIDI number of a pitch name; null for none, which equals no number of ours. */
const midiOf = (name: string): number | null => note(name).midi ?? null;

/** Fifths and octaves from one pitch to another: the spelled interval. */
const intervalOf = (from: string, to: string): string => {
  const [a, b] = [note(from).coord!, note(to).coord!];
  return `${b[0] - a[0]} ${b[1]! - a[1]!}`;
};

it.skipIf(!corporaHere)('a transposed tune has every note one spelled interval away, and its rhythm as it was', () => {
  const all = stages();
  let checked = 0;
  for (const [i, stage] of all.entries()) {
    const by = [5, -3, 2, -12, 7, 1][i % 6]!;
    const moved = edited(stage, transposeEdits(stage, by).edits);
    const [before, after] = [writtenIn(stage), writtenIn(moved)];
    const title = `${stage.score.title} by ${by}`;
    expect(
      after.map(({ name }) => midiOf(name)),
      title,
    ).toEqual(before.map(({ name }) => midiOf(name)! + by));
    expect(
      after.map(({ head }) => head.midi),
      title,
    ).toEqual(before.map(({ head }) => head.midi + by));
    expect(new Set(before.map(({ name }, n) => intervalOf(name, after[n]!.name))).size, title).toBeLessThan(2);
    expect(
      moved.score.voices.flatMap((voice) => voice.notes.map(({ onset }) => toText(onset))),
      title,
    ).toEqual(stage.score.voices.flatMap((voice) => voice.notes.map(({ onset }) => toText(onset))));
    checked += before.length;
  }
  expect(checked).toBeGreaterThan(20_000);
});

/** abc for a pitch by its name, its accidental always written. */
function abcOf(name: string): string {
  const { letter, alt, oct } = note(name);
  const sign = alt === 0 ? '=' : (alt < 0 ? '_' : '^').repeat(Math.abs(alt));
  return sign + (oct! >= 5 ? letter.toLowerCase() + "'".repeat(oct! - 5) : letter + ','.repeat(4 - oct!));
}

/** The same key of the piano under the letter above (12 fifths down, 7 octaves up) or below; under its own name where both take more than two signs. */
function respelled(name: string): string {
  const [fifths, octaves] = note(name).coord as [number, number];
  const others = [-12, 12].map((by) => coordToNote([fifths + by, octaves - (by * 7) / 12]).name);
  return others.find((other) => Math.abs(note(other).alt) <= 2) ?? name;
}

it.skipIf(!corporaHere)('a tune whose every note is spelled otherwise sounds the same', () => {
  let changed = 0;
  for (const stage of stages()) {
    const written = writtenIn(stage);
    const edits = new Map(written.map(({ from, to, name }) => [from, { span: { from, to }, insert: abcOf(respelled(name)) }]));
    changed += written.filter(({ name }) => respelled(name) !== name).length;
    expect(
      soundsIn(
        edited(
          stage,
          [...edits.values()].sort((a, b) => a.span.from - b.span.from),
        ),
      ),
      stage.score.title,
    ).toEqual(soundsIn(stage));
  }
  expect(changed).toBeGreaterThan(20_000);
});
