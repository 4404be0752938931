// Musical scenarios from tune text to plan: notes, places, windows. Mensur 1050 mm, tuning E A D G, medium hand, unless said. Figures are arithmetic and common practice.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../../server/src/arrangement/index.ts';
import type { Plan } from '../../../server/src/arrangement/types.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { tune } from './support.ts';

const tables = makeTables(8 * 1024 * 1024);
const planOf = (fields: string, body: string): Plan => planStage(readBook(tune(fields, body)), 0, defaultConfig, tables).fingered[0]!.plan;
const placesOf = (plan: Plan): string =>
  plan.notes.map((note) => note.places.map((place) => `${place.string}${place.stop}`).join('+')).join(' ');
const attacksOf = (plan: Plan): readonly string[] => plan.notes.map((note) => note.articulation);

describe('1. written and sounding octave', () => {
  it.each([
    ['K:D clef=bass', 'D,A,,G,E,,|'],
    ['K:D clef=bass-8', 'D,A,,G,E,,|'],
    ['K:D clef=bass transpose=-12', 'D,A,,G,E,,|'],
    ['K:D clef=bass octave=-1', 'D A, G E,|'],
  ])('only -8 and transpose=-12 say that the octave is already lowered: %s', (key, body) => {
    const plan = planOf(`L:1/4 ; ${key}`, body);
    expect(plan.notes.map((note) => note.sounding)).toEqual([[38], [33], [43], [28]]);
    expect(placesOf(plan)).toBe('D0 A0 G0 E0');
    expect(plan.shifts).toBe(0);
  });
});

describe('2. string text chooses one of the strings that have the pitch', () => {
  it.each([
    ['"^sul D"A,', 'D7'],
    ['"^sul G"A,', 'G2'],
    ['"sul D"A,', 'G2'],
  ])('%s is %s', (body, place) => expect(placesOf(planOf('L:1/4 ; K:C clef=bass', body))).toBe(place));
});

describe('3. the open G is another string than a hammered G', () => {
  it('(F,G,) stays on the D string with neighbouring fingers, one attack', () => {
    const plan = planOf('L:1/8 ; K:G clef=bass', '(F,G,)');
    expect(placesOf(plan)).toBe('D4 D5');
    expect(['1-2', '2-4']).toContain(plan.notes.map((note) => note.places[0]!.finger).join('-'));
    expect(attacksOf(plan)).toEqual(['pluck', 'hammer']);
  });
  it('(F,!0!G,) has no hand', () => {
    const plan = planOf('L:1/8 ; K:G clef=bass', '(F,!0!G,)');
    expect(plan.playable).toBe(false);
    expect(plan.windows.map((window) => window.code)).toEqual(['hammer.crosses-strings']);
  });
});

describe('4. a slur forbids the shift that a low minor third needs', () => {
  const fields = 'L:1/4 ; Q:1/4=60 ; K:C clef=bass';
  it.each([
    ['medium', 126],
    ['large', 142],
  ])('a %s hand reaches %i of 157.7 mm, at no tempo', (hand, available) => {
    const plan = planOf(`I:bullfiddle hand=${hand} ; ${fields}`, '(!sulG!^G,!sulG!B,)');
    expect(plan.windows).toHaveLength(1);
    expect(plan.windows[0]).toMatchObject({ code: 'reach.too-wide', available, unit: 'mm', slowdown: null });
    expect(plan.windows[0]!.needed).toBeCloseTo(157.7, 0);
  });
  it('unslurred it is playable', () => expect(planOf(fields, '!sulG!^G,!sulG!B,').playable).toBe(true));
});

describe('5. every pupil plays a closed whole tone', () => {
  it('a small hand plays the scale of G in first position', () => {
    const plan = planOf('L:1/8 ; I:bullfiddle hand=small ; K:G clef=bass', 'G,,A,,B,,C, D,E,F,G,|');
    expect(placesOf(plan)).toBe('E3 A0 A2 A3 D0 D2 D4 G0');
    expect(plan.shifts).toBe(0);
  });
  it('and in half position on a long bass, 113.3 mm', () => {
    const plan = planOf('L:1/8 ; I:bullfiddle hand=small mensur=1100 ; K:C clef=bass', '!1!F,,!4!G,,');
    expect(plan.playable).toBe(true);
    expect(plan.shifts).toBe(0);
  });
});

describe('8. slides', () => {
  const fields = 'L:1/4 ; Q:1/4=60 ; K:G clef=bass';
  it('an unslurred slide is plucked, approached from just below', () => {
    const plan = planOf(fields, 'D,!slide!A,');
    expect(plan.playable).toBe(true);
    expect(plan.notes.map((note) => note.attack)).toEqual(['pluck', 'scoop']);
  });
  it('a slurred slide keeps string and finger', () => {
    const plan = planOf(fields, '(!sulG!B,!slide!!sulG!D)');
    expect(placesOf(plan)).toBe('G4 G7');
    expect(plan.notes[0]!.places[0]!.finger).toBe(plan.notes[1]!.places[0]!.finger);
    expect(plan.notes[1]!.places[0]!.mm - plan.notes[0]!.places[0]!.mm).toBeCloseTo(132.6, 0);
    expect(plan.notes.map((note) => note.attack)).toEqual(['pluck', 'glide']);
  });
  it('no slide leaves an open string; on the D string the same notes do', () => {
    expect(planOf(fields, '(!0!G,!slide!B,)').windows.map((window) => window.code)).toEqual(['slide.open-string']);
    const plan = planOf(fields, '(G,!slide!B,)');
    expect(placesOf(plan)).toBe('D5 D9');
    expect(plan.notes[1]!.places[0]!.mm - plan.notes[0]!.places[0]!.mm).toBeCloseTo(162.3, 0);
  });
});
