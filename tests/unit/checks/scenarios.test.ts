// Musical scenarios with the finding they must give and the one they must not; figures by arithmetic on a mensur of 1050 mm.
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../server/src/text/span.ts';
import { findingsIn, tuneOf } from '../../support/check.ts';

const codesIn = (text: string): readonly string[] => findingsIn(text).map((found) => found.code);
/** The only finding of a text. */
function one(text: string) {
  const found = findingsIn(text);
  expect(found.map(({ code }) => code)).toHaveLength(1);
  return found[0]!;
}
const mended = (text: string, title: string): string => applyEdits(text, one(text).fixes.find((fix) => fix.title === title)!.edits);

describe('string text', () => {
  it('with a placement sign is a choice of string', () =>
    expect(codesIn(tuneOf('M:none ; L:1/4 ; K:C clef=bass', '"^sul D"A,"^sul G"A,'))).toEqual([]));
  it('without one is a chord symbol by the standard; the fix inserts ^', () =>
    expect(mended(tuneOf('M:none ; L:1/4 ; K:C clef=bass', '"sul D"A,'), 'Write "^sul D"')).toContain('"^sul D"A,'));
});

describe('a hammer-on', () => {
  const fields = 'M:none ; L:1/8 ; K:G clef=bass';
  it('into an open pitch is stopped on the lower string, adjacent fingers', () => expect(codesIn(tuneOf(fields, '(F,G,)'))).toEqual([]));
  it('pinned open crosses strings, since the open G is another string; the fix takes !0! out', () => {
    const text = tuneOf(fields, '(F,!0!G,)');
    expect(one(text)).toMatchObject({ code: 'hammer.crosses-strings', severity: 'error' });
    expect(mended(text, 'Remove !0!')).toContain('(F,G,)');
  });
  it('over a low minor third spans 158 mm where a hand reaches 126, at any tempo; without the slur it may shift', () => {
    const found = one(tuneOf('M:none ; L:1/4 ; K:C clef=bass', '(!sulG!^G,!sulG!B,)'));
    expect(found.code).toBe('reach.too-wide');
    expect(found.message).toMatch(/158 mm.*126 mm.*No slower tempo helps/);
    expect(codesIn(tuneOf('M:none ; L:1/4 ; Q:1/4=60 ; K:C clef=bass', '!sulG!^G,!sulG!B,'))).toEqual([]);
  });
  it('over a low minor third is not for a large hand either, which reaches 142 mm', () =>
    expect(one(tuneOf('M:none ; L:1/4 ; I:bullfiddle hand=large ; K:C clef=bass', '(!sulG!^G,!sulG!B,)')).message).toContain('142 mm'));
});

describe('a small hand', () => {
  it('plays a scale in first position without a warning, as every pupil does', () =>
    expect(codesIn(tuneOf('M:4/4 ; L:1/8 ; I:bullfiddle hand=small ; K:G clef=bass', 'G,,A,,B,,C, D,E,F,G,|'))).toEqual([]));
  it('plays a closed whole tone on a long mensur without an error', () =>
    expect(codesIn(tuneOf('M:none ; L:1/8 ; I:bullfiddle mensur=1100 hand=small ; K:G clef=bass', '!1!F,,!4!G,,'))).toEqual([]));
});

describe('a pickup', () => {
  const fields = 'M:4/4 ; L:1/8 ; K:D clef=bass';
  it('and the last bar make one bar, 2 + 6', () => expect(codesIn(tuneOf(fields, '|:A,,2|D,4F,4|A,4F,4|E,4C,4|D,6:|'))).toEqual([]));
  it('with a last bar that is short gives one finding, on the last bar', () => {
    const text = tuneOf(fields, '|:A,,2|D,4F,4|A,4F,4|E,4C,4|D,5:|');
    expect(text.slice(one(text).from)).toMatch(/^D,5/);
    expect(mended(text, 'Fill the bar with a rest (z)')).toContain('D,5z:|');
  });
});

describe('bars', () => {
  const fields = 'M:4/4 ; L:1/8 ; K:G clef=bass';
  it('split by a stray bar line are one finding; the fix takes the bar line out', () => {
    const text = tuneOf(fields, 'G,2|B,>A,B,D|CB,A,G,|E,8|D,6|]');
    expect(one(text).message).toBe('Bars 1 and 2 make one bar of 4/4 together. Take the bar line between them out.');
    expect(codesIn(mended(text, 'Take the bar line out'))).toEqual([]);
  });
  it('joined for want of a bar line are one finding; the fix puts it in', () => {
    const text = tuneOf(fields, 'G,8|B,4D,4G,4D,4|]');
    expect(one(text).code).toBe('bar.too-long');
    expect(mended(text, 'Put in a bar line')).toContain('B,4D,4|G,4D,4|]');
  });
  it('that all hold half of what the meter asks are one finding, on the meter', () => {
    const text = tuneOf('M:2/2 ; L:1/8 ; K:G clef=bass', 'G,4|B,4|D,4|G,4|A,4|');
    expect(text.slice(one(text).from)).toMatch(/^M:2\/2/);
  });
});

describe('one slip is told once', () => {
  const fields = 'M:4/4 ; L:1/4 ; K:G clef=bass';
  it.each([
    ['G, B, D G,|[A, G, G, G,|G,4:|', 'text.chord-unclosed'],
    ['|:G, B, D G,|"A A, G, G, G,|G,4:|', 'text.quote-unclosed'],
    ['G, B, D G,|{A, G,2 G,2|G,4|', 'text.grace-unclosed'],
  ])('%s', (music, code) => expect(codesIn(tuneOf(fields, music))).toEqual([code]));
  it('and the next line is judged again', () =>
    expect(codesIn(tuneOf(fields, 'G, B, D G,|[A, G, G, G,|\nG,5|G,4|'))).toEqual(['text.chord-unclosed', 'bar.too-long']));
});

describe('attacks', () => {
  const fields = 'M:2/2 ; L:1/8 ; Q:1/2=120 ; I:bullfiddle pluck=7 ; K:D clef=bass';
  const eighths = 'D,E,F,G, A,B,CD|DCB,A, G,F,E,D,|';
  it('at 8 a second are one passage over 16 notes; half note = 105 brings them to 7', () => {
    const text = tuneOf(fields, eighths);
    const found = one(text);
    expect(found).toMatchObject({ code: 'pluck.too-fast', severity: 'warning' });
    expect(found.message).toMatch(/^16 plucked notes, up to 8\.0 a second.*half note = 105 instead of 120/);
    expect(text.slice(found.from, found.to)).toBe(eighths.slice(0, -1));
  });
  it('saved by slurs are fine', () => expect(codesIn(tuneOf(fields, '(D,E,)F,G, A,B,(CD)|(DC)B,A, G,F,(E,D,)|'))).toEqual([]));
  it('are not judged without a tempo', () => expect(codesIn(tuneOf(fields.replace('Q:1/2=120 ; ', ''), eighths))).toEqual([]));
  it('at 16 a second are beyond any right hand, and told once, though no left hand could follow either', () =>
    expect(one(tuneOf(fields.replace('120', '240'), eighths))).toMatchObject({ code: 'pluck.too-fast', severity: 'error' }));
});

describe('a slide', () => {
  const fields = 'M:none ; L:1/4 ; Q:1/4=60 ; K:G clef=bass';
  it('on an unslurred note comes from just below', () => expect(codesIn(tuneOf(fields, 'D,!slide!A,'))).toEqual([]));
  it('inside a slur stays on its string', () => expect(codesIn(tuneOf(fields, '(!sulG!B,!slide!!sulG!D)'))).toEqual([]));
  it('from an open string has no finger to slide; the fix takes !0! out', () => {
    const text = tuneOf(fields, '(!0!G,!slide!B,)');
    expect(one(text).code).toBe('slide.open-string');
    expect(codesIn(mended(text, 'Remove !0!'))).toEqual([]);
  });
});

it('an accent on a hammered note is told, on the mark itself', () => {
  const text = tuneOf('M:2/2 ; L:1/8 ; K:D clef=bass', 'D,2(E,!>!F,) G,2A,2|');
  expect(one(text).code).toBe('accent.not-plucked');
  expect(text.slice(one(text).from, one(text).to)).toBe('!>!');
});

describe('slurs with fingers', () => {
  const fields = 'M:4/4 ; L:1/4 ; K:G clef=bass';
  it.each([
    ['(!1!B,!4!A,)G,2|', 'pull.wrong-direction', /^A pull-off/],
    ['(!4!A,!1!B,)G,2|', 'pull.wrong-direction', /^A hammer-on/],
    ['(!sulG!B,!sulD!A,)G,2|', 'hammer.crosses-strings', /^A pull-off/],
    ['(A,A,)G,2|', 'slur.same-pitch', /tie/],
  ])('%s is %s', (music, code, message) => {
    const found = one(tuneOf(fields, music));
    expect(found.code).toBe(code);
    expect(found.message).toMatch(message);
  });
});

it('a passage that slower time mends is a matter of time, with the tempo at which it goes', () => {
  const at = (bpm: number) => tuneOf(`M:4/4 ; L:1/8 ; Q:1/4=${bpm} ; K:G clef=bass`, '!sulG!^G,!sulG!e z2 G,4|');
  const found = one(at(120));
  expect(found.code).toBe('shift.too-far');
  const slower = Number(/quarter note = (\d+) instead of 120/.exec(found.message)![1]);
  expect(codesIn(at(slower))).toEqual([]);
  expect(codesIn(at(slower + 2))).toEqual(['shift.too-far']);
});
