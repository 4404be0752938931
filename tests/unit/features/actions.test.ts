// Actions: what is offered for a selection, and the text after.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig } from '../../../server/src/arrangement/index.ts';
import type { PlanStage } from '../../../server/src/arrangement/types.ts';
import { type AnyAction, actions } from '../../../server/src/features/actions/index.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { applyEdits, type Edit, type Span } from '../../../server/src/text/span.ts';
import { stageOf, tuneOf } from './support.ts';

const tools = { read: readBook, tables: makeTables(8_000_000), config: defaultConfig };

/** `$0..$0` is the selection, a single `$0` the caret. */
function withSelection(marked: string): { readonly text: string; readonly selection: Span } {
  const [before = '', inside = '', after] = marked.split('$0');
  const from = before.length;
  return after === undefined
    ? { text: before + inside, selection: { from, to: from } }
    : { text: before + inside + after, selection: { from, to: from + inside.length } };
}

/** A stage with its plan serves every action. */
type WithPlan = {
  offers(stage: PlanStage, selection: Span): readonly { variant: string; title: string }[];
  edits(stage: PlanStage, selection: Span, variant: string, t: typeof tools): readonly Edit[];
};
const find = (id: string): WithPlan => actions.find((action: AnyAction) => action.id === id) as unknown as WithPlan;

/** Takes an offer and compares the text after it. */
function check(id: string, variant: string, marked: string, after: string): void {
  const { text, selection } = withSelection(tuneOf(marked));
  const stage = stageOf(text);
  expect(
    find(id)
      .offers(stage, selection)
      .map((offer) => offer.variant),
  ).toContain(variant);
  expect(applyEdits(text, find(id).edits(stage, selection, variant, tools))).toBe(tuneOf(after));
}

function checkOffers(id: string, marked: string, titles: readonly string[]): void {
  const { text, selection } = withSelection(tuneOf(marked));
  expect(
    find(id)
      .offers(stageOf(text), selection)
      .map((offer) => offer.title),
  ).toEqual(titles);
}

describe('octave', () => {
  it('moves the selected notes, chords and accidentals included', () =>
    check('move-octave', 'up', 'D,2 $0[E,A,]2 ^F,2$0 G,2|', 'D,2 [EA]2 ^F2 G,2|'));
  it('moves the note at the caret', () => check('move-octave', 'down', 'D,2 $0E2 F,2|', 'D,2 E,2 F,2|'));
  it('says how many notes it moves', () =>
    checkOffers('move-octave', '$0D,2E,2F,2$0|', ['Move 3 notes an octave down', 'Move 3 notes an octave up']));
});

describe('length', () => {
  it('doubles notes, rests and chords', () => check('change-length', 'double', '$0D,E,/2 z [F,A,]3/2 G,/$0|', 'D,2E, z2 [F,A,]3 G,|'));
  it('halves', () => check('change-length', 'halve', '$0D,4E, F,3$0|', 'D,2E,/ F,3/2|'));
});

describe('string', () => {
  it('moves a passage to another string', () => check('move-string', 'D', 'E,2 $0!4!!sulG!G,2 A,2$0|', 'E,2 !sulD!G,2 !sulD!A,2|'));
  it('offers only strings that have the notes', () => checkOffers('move-string', '$0F,,2$0|', ['Play this note on the E string']));
  it('keeps the places of a symbol line', () => check('move-string', 'A', 'E,2$0F,2G,2|\ns:!1! !4! !0!', 'E,2!sulA!F,2G,2|\ns:!1! * !0!'));
});

describe('pins', () => {
  it('pins what is computed', () => check('pin-notes', 'pin', '$0E,2F,2$0 G,2|', '!1!!sulD!E,2!4!!sulD!F,2 G,2|'));
  it('takes pins off', () => check('pin-notes', 'unpin', '$0!4!F,2$0 G,2|', 'F,2 G,2|'));
});

describe('slur', () => {
  it('hammers on or pulls off, marks inside', () => {
    check('slur-notes', 'slur', 'D,2 $0!>!E,F,$0 G,4|', 'D,2 (!>!E,F,) G,4|');
    checkOffers('slur-notes', 'D,2 $0E,F,$0 G,4|', ['Hammer on: one pluck for 2 notes']);
    checkOffers('slur-notes', 'D,2 $0F,E,$0 G,4|', ['Pull off: one pluck for 2 notes']);
  });
  it('is not offered for a tie, a slurred note, or a whole bar', () => {
    checkOffers('slur-notes', 'D,2 $0E,E,$0 G,4|', []);
    checkOffers('slur-notes', 'D,2 ($0E,F,$0) G,4|', []);
    checkOffers('slur-notes', '$0D,2E,F,G,4$0|', []);
  });
});

describe('ink', () => {
  it('writes the whole fingering', () => {
    const text = tuneOf('E,2F,2 G,2A,2|');
    const stage = stageOf(text);
    const inked = applyEdits(text, find('ink').edits(stage, { from: 0, to: 0 }, 'all', tools));
    expect(stageOf(inked).fingered[0]!.plan.cost).toBe(stage.fingered[0]!.plan.cost);
    expect(find('ink').edits(stageOf(inked), { from: 0, to: 0 }, 'all', tools)).toEqual([]);
  });
});

describe('accents', () => {
  it('are put on backbeats, once', () => check('accents', 'backbeat', 'D,2E,2 F,2G,2|$0', 'D,2!>!E,2 F,2!>!G,2|'));
  it('are not offered where they are', () => checkOffers('accents', 'D,2!>!E,2 F,2!>!G,2|$0', []));
});

describe('arrange', () => {
  const melody = 'X:4\nT:t\nI:bullfiddle tune=t version=source\nM:2/2\nL:1/8\nK:D\n$0D2F2 A2F2|G2E2 D4|\n';
  it('adds a version after the melody, with the next number', () => {
    const { text, selection } = withSelection(melody);
    const after = applyEdits(text, find('arrange').edits(stageOf(text), selection, 'low', tools));
    expect(after.startsWith(text.trimEnd())).toBe(true);
    const book = readBook(after);
    expect(book.tunes).toHaveLength(2);
    expect(after).toMatch(/\n\nX:5\n/);
    expect(after).toMatch(/version=low/);
  });
  it('offers what is not there yet, and only for melodies', () => {
    checkOffers('arrange', melody, [
      'Arrange a low version for the bass',
      'Arrange a high version for the bass',
      'Write a bass line of roots and fifths',
    ]);
    checkOffers('arrange', `${melody}\nX:5\nI:bullfiddle tune=t version=low\nK:D clef=bass\nD,4|\n`, [
      'Arrange a high version for the bass',
      'Write a bass line of roots and fifths',
    ]);
    checkOffers('arrange', 'D,4|$0', []);
  });
  it('adds a bass line after the melody', () => {
    const { text, selection } = withSelection(melody.replace('D2F2', '"D"D2F2'));
    const after = applyEdits(text, find('arrange').edits(stageOf(text), selection, 'backing', tools));
    expect(after.startsWith(text.trimEnd())).toBe(true);
    expect(after).toMatch(/version=backing[\s\S]*\n"D".*D,4 /);
  });
});

describe('suggested chords', () => {
  const head = 'X:4\nT:t\nM:2/2\nL:1/8\nK:D\n';
  const comment = '% Chords with a question mark are suggestions: made by rule from the melody, not part of the tune.\n';
  it('are written over a melody without chords, removed and kept', () => {
    check('suggest-chords', 'suggest', `${head}$0D2F2 A2F2|G2B2 d4|\n`, `${head}${comment}"^?D"D2F2 A2F2|"^?G"G2B2 "^?D"d4|\n`);
    check('suggest-chords', 'remove', `${head}${comment}$0"^?D"D2F2 A2F2|"^?G"G2B2 "^?D"d4|\n`, `${head}D2F2 A2F2|G2B2 d4|\n`);
    check('suggest-chords', 'keep', `${head}${comment}$0"^?D"D2F2 A2F2|"^?G"G2B2 "^?D"d4|\n`, `${head}"D"D2F2 A2F2|"G"G2B2 "D"d4|\n`);
  });
  it('are not offered where chords are written, nor for a bass part', () => {
    checkOffers('suggest-chords', `${head}$0"D"D2F2 A2F2|\n`, []);
    checkOffers('suggest-chords', 'D,4|$0', []);
  });
  it('move with the tune', () => check('transpose', '5', 'X:1$0\nL:1/8\nK:D\n"^?Bm"B8|\n', 'X:1\nL:1/8\nK:G\n"^?Em"e8|\n'));
});

describe('transpose', () => {
  it('is offered in the header alone', () => checkOffers('transpose', 'D,4A,4$0|', []));
  it('moves key and notes', () =>
    check('transpose', '5', 'X:1$0\nM:4/4\nL:1/8\nK:D clef=bass\nD,4A,4|\n', 'X:1\nM:4/4\nL:1/8\nK:G clef=bass\nG,4D4|\n'));
});

describe('all actions', () => {
  it('have ids of their own and survive a broken tune', () => {
    expect(new Set(actions.map((action) => action.id)).size).toBe(actions.length);
    const text = 'X:1\nK:\n[[D!!|(((:::|\nV:\n"unclosed';
    for (const { id } of actions) expect(() => find(id).offers(stageOf(text), { from: 0, to: text.length })).not.toThrow();
  });
});
