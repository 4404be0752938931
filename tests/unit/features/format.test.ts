// The formatter changes white space alone, settles after one run, and never the music.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { scoreStage } from '../../../server/src/arrangement/index.ts';
import { closedBar } from '../../../server/src/features/closed-bar.ts';
import { defaultFeatureSettings } from '../../../server/src/features/feature.ts';
import { format } from '../../../server/src/features/format.ts';
import { toText } from '../../../server/src/score/fraction.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { ask, texts, tuneOf, withCaret } from './support.ts';

/** All tunes of a book formatted. */
function formatted(text: string): string {
  const book = readBook(text);
  const edits = book.tunes.flatMap(({ at }, i) =>
    format
      .answer(scoreStage(book, i), null, defaultFeatureSettings)
      .map(({ span, insert }) => ({ span: { from: span.from + at, to: span.to + at }, insert })),
  );
  return applyEdits(text, edits);
}

function check(before: string, after: string): void {
  expect(formatted(tuneOf(before))).toBe(tuneOf(after));
  expect(formatted(tuneOf(after))).toBe(tuneOf(after));
}

/** Notes as plain text, told without the formatter's own comparison. */
function notesOf(text: string): readonly string[] {
  const book = readBook(text);
  return book.tunes.flatMap((_, i) =>
    scoreStage(book, i).score.voices.flatMap((voice) =>
      voice.notes.map(
        (note) =>
          `${voice.id} ${toText(note.onset)} ${toText(note.duration)} ${note.heads.map((head) => `${head.midi}${head.tied}`)} ${note.marks.length}`,
      ),
    ),
  );
}

const withoutSpace = (text: string): string => text.replace(/\s+/g, '');

describe('format', () => {
  it('groups eighth notes of four-four by half bars', () => check('D,E, F,G,A,B, C D|', 'D,E,F,G, A,B,CD|'));
  it('groups by quarter notes where something is quicker', () => check('D,E,F,/G,/A, B,CD2|', 'D,E, F,/G,/A, B,C D2|'));
  it('groups jigs by threes', () => check('[M:6/8]A,B,C D2E|', '[M:6/8]A,B,C D2E|'));
  it('counts a pickup back from the bar line', () => check('D,|E,F,G,A,B,4|', 'D,|E,F,G,A, B,4|'));
  it('takes white space from bar lines and line ends', () => check('| D,4 E,4 | F,8 |]  ', '|D,4 E,4|F,8|]'));
  it('keeps marks with their notes', () => check('D,4"G" !1! G,4|', 'D,4 "G"!1!G,4|'));
  it('leaves ties, broken rhythm and slurs where they are', () => check('(D,2E,2)F,>G,A,2-|A,8|', '(D,2 E,2) F,>G, A,2-|A,8|'));
  it('keeps an ending apart from its notes', () => check('|:D,8|[1E,8:|[2F,8|]', '|:D,8|[1 E,8:|[2 F,8|]'));
  it('lines up the bars of voices', () =>
    check('[V:1] D4 E4|F8|\n[V:2]D,2E,2 F,2G,2|A,8|', '[V:1] D4 E4       |F8 |\n[V:2]D,2E,2 F,2G,2|A,8|'));
  it('leaves a line alone that holds something else', () => check('D,E, F,G, ## A,B,|', 'D,E, F,G, ## A,B,|'));
  it('leaves a line alone whose spaces decide what it says, and spaces the others', () =>
    check('D, E,F,G, A,4|\n$>u |: |[CE]|"G"Z2F2Z2', 'D,E,F,G, A,4|\n$>u |: |[CE]|"G"Z2F2Z2'));
  it('keeps line ends as they are', () =>
    expect(formatted('X:1\r\nL:1/8\r\nM:4/4\r\nK:D\r\nD E F G | \r\n')).toBe('X:1\r\nL:1/8\r\nM:4/4\r\nK:D\r\nDEFG|\r\n'));
  it('knows the bar that was just closed', () => {
    const { text, at } = withCaret(tuneOf('D,8|E,2 F,2G,4|$0 A,'));
    expect(texts(text, [ask(closedBar, text, at)!])).toEqual(['E,2 F,2G,4|']);
    expect(ask(closedBar, text, at - 1)).toBeNull();
  });
  it('formats one bar when asked for it, and nothing else', () => {
    const text = tuneOf('D, E,F,G, A, B,CD|D, E,F,G,A,4|');
    const bar = text.indexOf('|D,') + 1;
    const edits = format.answer(scoreStage(readBook(text), 0), { from: bar, to: text.length }, defaultFeatureSettings);
    expect(applyEdits(text, edits)).toBe(tuneOf('D, E,F,G, A, B,CD|D,E,F,G, A,4|'));
  });
});

describe.skipIf(!corporaHere)('format over the corpora', () => {
  it('never changes the music, and settles', () => {
    const files = corpusFiles();
    let changed = 0;
    for (const { path, text } of files) {
      const once = formatted(text);
      if (once !== text) changed++;
      expect(withoutSpace(once), path).toBe(withoutSpace(text));
      expect(notesOf(once), path).toEqual(notesOf(text));
      expect(formatted(once), path).toBe(once);
    }
    expect(changed).toBeGreaterThan(0);
  });
});
