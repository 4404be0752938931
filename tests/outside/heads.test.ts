// Every notehead that the engraving library reads against our own reading of the same tunes, over the open corpora.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../server/src/abc/index.ts';
import { notesIn } from '../../server/src/engraving/heads.ts';
import { type ParsedTune, parse, prepare, toSceneNotes } from '../../server/src/engraving/index.ts';
import { readScore } from '../../server/src/score/index.ts';
import { corporaHere, corpusFiles } from '../support/corpora.ts';

const sorted = (steps: readonly number[]): string => [...steps].sort((a, b) => a - b).join();

/** How many heads (graces left out) stand in our notes at the same place and pitch, and how many do not. */
function compared({ tune, notes, text }: ParsedTune): { readonly same: number; readonly other: number } {
  let same = 0;
  let other = 0;
  for (const element of tune.lines.flatMap((line) => line.staff?.flatMap((staff) => staff.voices.flat()) ?? [])) {
    if (element.pitches === undefined) continue;
    const ours = notesIn(element, notes, text).filter((note) => note.kind === 'note');
    const steps = ours.length === 1 ? ours[0]!.heads.map((head) => head.step) : [];
    if (sorted(steps) === sorted(element.pitches.map((pitch) => pitch.pitch))) same += steps.length;
    else other += element.pitches.length;
  }
  return { same, other };
}

describe('heads', () => {
  it.skipIf(!corporaHere)('agree with our notes in the corpora', () => {
    let heads = 0;
    const missed: string[] = [];
    for (const { path, text } of corpusFiles()) {
      const book = readBook(text);
      for (const [i, { tree }] of book.tunes.entries()) {
        const parsed = parse(prepare(book, i), toSceneNotes(readScore(book.header, tree)));
        const found = parsed.ok ? compared(parsed.value) : { same: 0, other: Number.NaN };
        heads += found.same;
        if (found.other !== 0) missed.push(`${path}, tune ${i}: ${found.other} heads`);
      }
    }
    expect(missed).toEqual([]);
    expect(heads).toBeGreaterThan(20_000);
  });
});
