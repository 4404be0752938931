// The legend that stands for accents on every backbeat.
import { describe, expect, it } from 'vitest';
import { backbeatLegend } from '../../../server/src/handout/backbeats.ts';
import { openFonts } from '../../../server/src/handout/page/fonts.ts';
import { titleBlock } from '../../../server/src/handout/page/furniture.ts';
import { papers } from '../../../server/src/handout/page/paper.ts';
import { fontFiles, handoutTunes, madeSheet } from '../../support/handout.ts';

const tune = (body: string, meter = '4/4') => handoutTunes(`X:1\nT:B\nM:${meter}\nL:1/4\nQ:1/4=100\nK:G clef=bass\n${body}\n`)[0]!;
const fonts = openFonts(fontFiles);
const paths = (of: ReturnType<typeof tune>): number =>
  madeSheet([of], fonts).sheet.pages[0]!.placed.flatMap(({ marks }) => marks.filter((mark) => mark.kind === 'path')).length;

describe('backbeatLegend', () => {
  const all = tune('G,!>!A,B,!>!G,|D,!>!G,A,!>!B,|]');

  it('stands for accents on every backbeat and nowhere else', () => {
    expect(backbeatLegend(all)).toBe('Accents on 2 and 4.');
    expect(backbeatLegend(tune('!>!G,|D,!>!G,A,!>!B,|]'))).toBe('Accents on 2 and 4.');
    expect(backbeatLegend(tune('G,/A,/B,/!>!G,/A,/B,/|]', '6/8'))).toBe('Accents on the second beat.');
    expect(backbeatLegend(tune('G,A,B,G,|]'))).toBeNull();
    expect(backbeatLegend(tune('!>!G,!>!A,B,!>!G,|]'))).toBeNull();
    expect(backbeatLegend(tune('G,!>!A,B,G,|]'))).toBeNull();
    expect(backbeatLegend(tune('G,!>!A,B,|]', '3/4'))).toBeNull();
  });

  it('is printed under the title, and the wedges are not', () => {
    const words = titleBlock(all, papers.a4, fonts).marks.map((mark) => (mark.kind === 'text' ? mark.text : ''));
    expect(words.join(' ')).toContain('Accents on 2 and 4.');
    // An accent more, on 1, and all five are drawn: over the staff and under the tab.
    expect(paths(tune('!>!G,!>!A,B,!>!G,|D,!>!G,A,!>!B,|]')) - paths(all)).toBe(10);
  });
});
