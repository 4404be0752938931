// The fixes of findings, each put in: its finding is gone, none has come, and every note it does not speak of is as it was.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { scoreStage } from '../../../server/src/arrangement/index.ts';
import type { Finding, Fix } from '../../../server/src/checks/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { findingsIn, tuneOf } from '../../support/check.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { demoBooks } from '../../support/merging.ts';
import { seeded } from '../../support/random.ts';
import { slippedTexts } from '../../support/slips.ts';

/** What sounds and when, note by note, with the place of each. */
function soundsOf(text: string) {
  const book = readBook(text);
  return book.tunes.flatMap((tune, i) =>
    scoreStage(book, i).score.voices.flatMap((voice) =>
      voice.notes
        .filter(({ kind }) => kind === 'note')
        .map((note) => ({
          from: tune.at + note.from,
          to: tune.at + note.to,
          sound: note.heads.map((head) => head.midi).join('+'),
        })),
    ),
  );
}

/** The pitches of the notes that no edit of the fix touches; null in the place of those it does. */
function untouched(text: string, fix: Fix): readonly (string | null)[] {
  return soundsOf(text).map(({ from, to, sound }) => (fix.edits.some(({ span }) => span.from < to && span.to > from) ? null : sound));
}

const keyOf = (found: Finding, text: string): string => `${found.code} ${text.slice(0, found.from).split('\n').length}`;

/** What is wrong with a fix, or null. */
function faultOf(text: string, all: readonly Finding[], found: Finding, fix: Fix): string | null {
  const mended = applyEdits(text, fix.edits);
  const left = all.map((one) => one.code);
  const added = findingsIn(mended)
    .map((one) => one.code)
    .filter((code) => {
      const at = left.indexOf(code);
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    });
  const what = `${keyOf(found, text)} "${fix.title}"`;
  if (added.length > 0) return `${what} brings ${added.join(', ')}`;
  if (!left.includes(found.code)) return `${what} leaves the finding`;
  const [was, is] = [untouched(text, fix), soundsOf(mended)];
  if (was.length !== is.length) return `${what} changes the number of notes`;
  return was.every((sound, i) => sound === null || sound === is[i]!.sound) ? null : `${what} changes other notes`;
}

function faultsIn(text: string): readonly string[] {
  const all = findingsIn(text);
  return all.flatMap((found) => found.fixes.flatMap((fix) => faultOf(text, all, found, fix) ?? []));
}

describe('every fix takes its finding away, brings none, and leaves the other notes', () => {
  it('in the demo', () => {
    expect(demoBooks.flatMap((text) => findingsIn(text).flatMap(({ fixes }) => fixes)).length).toBeGreaterThan(0);
    expect(demoBooks.flatMap(faultsIn)).toEqual([]);
  });
  it('in the demo after a slip', () => {
    const texts = [...slippedTexts(28, seeded(5))];
    expect(texts.flatMap((text) => findingsIn(text).flatMap(({ fixes }) => fixes)).length).toBeGreaterThan(10);
    expect(texts.flatMap(faultsIn)).toEqual([]);
  });
  it.skipIf(!corporaHere)('in the corpora', () => {
    expect(corpusFiles().flatMap(({ text }) => faultsIn(text.replace(/^\uFEFF/, '')))).toEqual([]);
  });
});

it('fixes of one finding that do the same at two places are told apart', () => {
  const [found] = findingsIn(tuneOf('M:4/4 ; L:1/8 ; Q:1/4=200 ; K:G clef=bass', '[!1!A,!1!F,]4 z4|'));
  expect(found!.fixes.map(({ title, edits }) => [title, edits[0]!.insert])).toEqual([
    ['Remove !1! (the first)', ''],
    ['Remove !1! (the second)', ''],
  ]);
});
it('a hop names its notes, the time there is and the time it takes', () => {
  const [found] = findingsIn(tuneOf('M:4/4 ; L:1/8 ; Q:1/4=240 ; K:G clef=bass', '!sulA!!1!B,,/!plus!!sulD!!1!E,/ z7|'));
  expect(found!.message).toMatch(/^From B to E the same finger has to leave one string for another: it has \d+ ms and needs \d+ ms\. /);
});
