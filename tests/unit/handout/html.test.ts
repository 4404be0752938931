// The HTML handout: one file, no network, text stays text, times as played out.
import { describe, expect, it } from 'vitest';
import { htmlFile, openFonts } from '../../../server/src/handout/index.ts';
import { fontFiles, handoutTunes, look, madeSheet, practice } from '../../support/handout.ts';

const fonts = openFonts(fontFiles);

function page(text: string): string {
  const tunes = handoutTunes(text);
  return htmlFile(madeSheet(tunes, fonts).sheet, tunes, fonts, look, practice);
}

interface Tune {
  readonly notes: readonly (readonly number[])[];
  readonly clicks: readonly (readonly number[])[];
  readonly end: number;
}
const dataOf = (html: string): readonly Tune[] => JSON.parse(/id="tunes">(.*?)<\/script>/s.exec(html)![1]!);

describe('htmlFile', () => {
  const hostile = page('X:1\nT:</script><img src=x onerror=alert(1)>\nM:4/4\nL:1/4\nQ:1/4=60\nK:C clef=bass\nA,, A,, z2|]\n');

  const tame = page('X:1\nT:Tame\nM:4/4\nK:C clef=bass\nA,,4|]\n');

  it('asks the network for nothing and forbids it', () => {
    // The name of the SVG namespace looks like an address and is none; a failed match must not print the fonts.
    const reaching = tame.replaceAll('http://www.w3.org/2000/svg', '').match(/https?:|<[^>]*\bsrc=|@import|<link|url\((?!data:)/gi);
    expect(reaching).toBeNull();
    expect(hostile.includes("default-src 'none'")).toBe(true);
  });

  it('keeps text of a tune from becoming markup or script', () => {
    expect(hostile.includes('<img')).toBe(false);
    expect(hostile.match(/<\/script>/g)).toHaveLength(2);
  });

  it('gives the player the sounding notes in seconds after the count-in', () => {
    const [tune] = dataOf(hostile);
    expect(tune!.notes.map(([at, length, frequency]) => [at, length, frequency])).toEqual([
      [4, 1, 55],
      [5, 1, 55],
    ]);
    expect(tune!.clicks.filter(([, , always]) => always === 1)).toEqual([
      [0, 1, 1],
      [1, 0, 1],
      [2, 0, 1],
      [3, 0, 1],
    ]);
    expect(tune!.end).toBe(8);
  });
});
