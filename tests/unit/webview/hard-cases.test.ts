// Music that is hard to set, measured in a real browser: numbers under their heads and apart, fingers clear of arcs, no text over another.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { placingOf } from '../../support/page/placing.ts';

const header = 'X:1\nM:4/4\nL:1/8\nQ:1/4=50\nK:G clef=bass\n';

const cases: Readonly<Record<string, string>> = {
  'sixteenths between the octave and the end of the board':
    'L:1/16\n' +
    'gfgf gfgf gfgf gfgf|gfgf gfgf gfgf gfgf|gfgf gfgf gfgf gfgf|gfgf (gf)(g!slide!f) g!slide!fgf gfgf|\n' +
    'E,,F,,G,,A,, B,,C,D,E, F,G,A,B, CDEF|GABc defg gfed cBAG|gfgf efgf gfgf efgf|\n',
  'graces, with accidentals and of two figures': '{^G,}A,2 {^C=F}D2 {_B,A,}G,2 {/E}F2|{f}g4 {fg}f4|{^fg}f8|\n',
  'harmonics close together': 'L:1/16\n!open!d2!open!g2!open!d2!open!g2 !open!d!open!g!open!d!open!g !open!d!open!g!open!d!open!g|\n',
  'ties and slurs under and over fingers':
    '!1!A,2-A,2 !4!B,4-|B,4 (!2!C2 !4!D2)|.(G,2 A,2 B,2 C2)|(!1!E,2!4!F,2) (!4!G,2!1!F,2)|(E,,2F,,2) E,,4-|E,,4 (e2f2)|\n' +
    '(g4 f2) d2-|d4 [EA]2-[EA]2|!>!(A,2B,2) !>!.C2 !>!D2|[D,A,]2-[D,A,]2 ([D,B,]2[E,C]2)|.(d2e2f2g2) .(E,,2F,,2G,,2A,,2)|\n',
  'tall stacks under tempo, chords and parts':
    'P:A\n"Gmaj7"!open!g2 !open!d2 "Am"!>![CA]2 "Em"!>![EB]2|"G"!>!!open!d4 !>![DG]4|\nP:B\n"Gmaj7"!>![EB]2 G2 "D"[CA]2 F2|\n',
  'two voices on a staff, with rests and graces':
    '%%score (1 2)\nV:1 clef=bass\nV:2 clef=bass\n' +
    '[V:1] "G"z2 C2 D2 z2|G4 z4|{G}C2D2E2F2|\n[V:2] E,,2 z2 G,,2 A,,2|z4 E,,4|G,,2A,,2B,,2C,2|\n',
  'a melody over the bass, with graces under chords':
    'V:1 clef=treble\nV:2 clef=bass\n[V:1] "A"c2 e2 a2 z2|"E7"{ab}g4 "A/C#"{gf}f4|\n[V:2] A,,2 E,2 A,2 z2|!>!B,,2 [E,B,]2 (G,2A,2)|\n',
  'rests of overlays': '"C"C4 z4 & E,,8|z2 C2 z2 E2 & C,4 z4|G,8 & z4 E,,4|C8 & E,4 z2 F,2|\nz8 & E,,2F,,2G,,2A,,2|c2B2A2G2 & z8|\n',
  'more than a line holds, with words':
    '"Gmaj7#11/F#"G,2"Am7b5"B,D "F#m7b5/E"G,B,"Bb7sus4"DG|"C"C2"^with a very long text over it"(EC) A,C"_under the staff, long"EA|\n' +
    'w:some words to sing here and on-wards__ we go a-long\nw:se-cond verse of words that are length-i-er than the first of them\n',
};

describe.skipIf(browserPath === null)('hard cases', () => {
  let browser: Browser;
  let page: Page;
  let version = 0;

  beforeAll(async () => {
    browser = await startBrowser();
    page = await openPage(browser);
  }, 60_000);
  afterAll(() => browser.close());

  it.each(Object.entries(cases))('%s', async (_, body) => {
    const { numbers, farthest, closest, fromArc, covered } = await placingOf(page, header + body, ++version);
    expect(numbers).toBeGreaterThan(0);
    expect(farthest).toBeLessThanOrEqual(0.5);
    expect(closest).toBeGreaterThanOrEqual(1.5);
    expect(fromArc).toBeGreaterThanOrEqual(1.5);
    expect(covered).toEqual([]);
  });
});
