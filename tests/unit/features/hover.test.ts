// What is shown beside the pointer.
import { describe, expect, it } from 'vitest';
import { pitchHover } from '../../../server/src/features/hover-pitch.ts';
import { placeHover } from '../../../server/src/features/hover-place.ts';
import { textHover } from '../../../server/src/features/hover-text.ts';
import { ask, tuneOf, withCaret } from './support.ts';

const features = { pitch: pitchHover, place: placeHover, text: textHover };

/** The text that the hover is for, and what it says, paragraph by paragraph. */
function check(kind: keyof typeof features, marked: string, on: string, says: readonly (string | RegExp)[]): void {
  const { text, at } = withCaret(tuneOf(marked));
  const hover = ask(features[kind], text, at);
  expect(hover && text.slice(hover.from, hover.to)).toBe(on);
  for (const [i, words] of says.entries()) expect(hover!.text[i]).toMatch(words);
}

describe('pitch hover', () => {
  it('names written and sounding pitch, and why it is sharp', () =>
    check('pitch', 'D,2 $0F,2 D,4|', 'F,2', ['**F♯3**, sounds F♯2 (sharp by the key)', 'Bar 1, beat 2.']));
  it('knows the accidental before it in the bar', () => check('pitch', '^G,2 $0G,2|', 'G,2', [/sharp by the accidental before it/]));
  it('does not lower twice', () => check('pitch', 'X:1\nL:1/4\nK:D clef=bass-8\n$0D,|', 'D,', ['**D3**, sounds D2']));
  it('reads a melody as it sounds', () => check('pitch', 'X:1\nL:1/4\nK:D\n$0D|', 'D', ['**D4**, sounds D4']));
  it('counts a pickup as bar 0, from its end', () => check('pitch', '$0D,2|E,8|', 'D,2', [/./, 'Bar 0, beat 4.']));
  it('names parts', () => check('pitch', 'P:B\nE,3$0F,|', 'F,', [/./, /part B\.$/]));
});

describe('place hover', () => {
  it('names place, reason and next best', () =>
    check('place', 'E,2 F,2 $0G,2|', 'G,2', [
      '**open G string**.',
      /^The hand/,
      /^Next best: .+ shifts? dearer \([a-z0-9 ]+ [+−]\d\.\d.*\)\.$/,
    ]));
  it('tells what is pinned', () => check('place', '!sulD!$0G,2 A,2|', 'G,2', [/^\*\*D string, stop 5/, /^Pinned by you: string\./]));
  it('says why no hand plays it', () =>
    check('place', 'K:C clef=bass\n(!sulG!^G,!sulG!$0B,)', 'B,', [
      'No hand within the stated limits plays this passage: it needs 158 mm, there are 126 (`reach.too-wide`).',
    ]));
  it('cautions in thumb position', () => check('place', '!thumb!$0d2|', 'd2', [/thumb/, /./, /./, /stop on pain/]));
});

describe('text hover', () => {
  it('explains fields, decorations, signs and declarations', () => {
    check('text', 'X:1\n$0M:4/4\nK:D\nD,|', 'M:4/4', [/Meter/]);
    check('text', 'D,2 !sli$0de!E,2|', '!slide!', [/^\*\*slide\*\*: Slide/]);
    check('text', 'D,2 $0LE,2|', 'L', [/Accent/]);
    check('text', 'X:1\nI:bullfiddle schoo$0l=closed\nK:D\nD,|', 'school=closed', [/left hand/, /open, pivot/]);
    check('text', 'D,2E,2\ns:!thu$0mb!', '!thumb!', [/Thumb/]);
  });
  it('is silent on notes', () => {
    const { text, at } = withCaret(tuneOf('$0D,2|'));
    expect(ask(textHover, text, at)).toBeNull();
  });
});
