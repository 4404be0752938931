// Entering and moving: notes by string and stop, the caret by bars, pasted tunes made plain.
import { describe, expect, it } from 'vitest';
import { enterNote } from '../../../server/src/features/enter-note.ts';
import { moveByBar } from '../../../server/src/features/move-by-bar.ts';
import { cleanPasted, looksLikeTune } from '../../../server/src/features/paste.ts';
import { ask, stageOf, tuneOf, withCaret } from './support.ts';

/** The text for a string and stop at the caret; put there, it sounds as that place does. */
function check(marked: string, string: string, stop: number, wanted: string): void {
  const { text, at } = withCaret(tuneOf(marked));
  const entered = ask(enterNote, text, { at, string, stop });
  expect(entered).toBe(wanted);
  const note = stageOf(text.slice(0, at) + entered + text.slice(at)).fingered[0]!.part.notes.find((one) => one.note.from >= at)!;
  const open = { G: 43, D: 38, A: 33, E: 28 }[string]!;
  expect(note.sounding).toEqual([open + stop]);
}

describe('entering by string and stop', () => {
  it('writes notes of the key without accidentals', () => check('D,2 $0 E,2|', 'D', 4, '!sulD!F,'));
  it('writes others with a sign of the key', () => {
    check('D,2 $0 E,2|', 'D', 3, '!sulD!=F,');
    check('D,2 $0 E,2|', 'A', 1, '!sulA!^A,,');
    check('X:1\nL:1/8\nK:F clef=bass\nF,2 $0 G,2|\n', 'G', 1, '!sulG!_A,');
  });
  it('undoes an accidental of the bar', () => check('=F,2 $0 E,2|', 'D', 4, '!sulD!^F,'));
  it('knows octave= and the high register', () => {
    check('X:1\nL:1/8\nK:D clef=bass octave=-1\nD2 $0 E2|\n', 'D', 0, '!sulD!D');
    check('D,2 $0 E,2|', 'G', 19, '!sulG!d');
  });
  it('gives nothing in a melody', () => {
    const text = 'X:1\nK:D\nD|\n';
    expect(ask(enterNote, text, { at: 9, string: 'G', stop: 0 })).toBeNull();
  });
});

describe('moving by bars', () => {
  it('goes to the start of the next bar and back', () => {
    const text = tuneOf('D,8|E,8|\nF,8|');
    const starts = ['D,8', 'E,8', 'F,8'].map((bar) => text.indexOf(bar));
    expect(ask(moveByBar, text, { at: starts[0]! + 1, way: 'on' })).toBe(starts[1]);
    expect(ask(moveByBar, text, { at: starts[1]!, way: 'on' })).toBe(starts[2]);
    expect(ask(moveByBar, text, { at: starts[2]!, way: 'back' })).toBe(starts[1]);
    expect(ask(moveByBar, text, { at: starts[2]!, way: 'on' })).toBeNull();
  });
});

describe('pasting', () => {
  it('makes quotes, spaces and line ends plain in music', () =>
    expect(cleanPasted('X:1\r\nK:F\u266F\n\u201CAm\u201DA,\u00A0B,\u2019\u200B|\r', '\n')).toBe('X:1\nK:F#\n"Am"A, B,\'|\n'));
  it('leaves the words of titles and lyrics', () =>
    expect(cleanPasted('T:Orrin\u2019s\u00A0Lantern\uFEFF', '\r\n')).toBe('T:Orrin\u2019s Lantern'));
  it('knows a tune from prose', () => {
    expect(looksLikeTune('X:1\nK:D\n')).toBe(true);
    expect(looksLikeTune('D2FA d2AF|G2BG|')).toBe(true);
    expect(looksLikeTune('Dear all, see | you there')).toBe(false);
  });
});
