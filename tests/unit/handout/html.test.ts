// The HTML handout: one file, no network, text stays text, times as played out.
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { htmlFile, openFonts } from '../../../server/src/handout/index.ts';
import { fontFiles, handoutTunes, look, madeSheet, practice } from '../../support/handout.ts';
import { browserPath, startBrowser } from '../../support/page/browser.ts';

const fonts = openFonts(fontFiles);

function page(text: string): string {
  const tunes = handoutTunes(text);
  return htmlFile(madeSheet(tunes, fonts).sheet, tunes, fonts, look, practice);
}

interface Tune {
  readonly notes: readonly (readonly number[])[];
  readonly chords: readonly (readonly [number, number, readonly number[]])[];
  readonly drones: readonly (readonly [number, number, readonly number[]])[];
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

  const backed = page('X:1\nT:B\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\n"G"({A,}B,)D G, z|]\n');

  it('gives it graces on the beat, hammered notes that are not plucked, chords on 2 and 4, and root and fifth of the key', () => {
    const [tune] = dataOf(backed);
    expect(tune!.notes.map(([at, , , , plucked]) => [at, plucked])).toEqual([
      [2, 1],
      [expect.closeTo(2.08, 3), 0],
      [2.5, 1],
      [3, 1],
    ]);
    // Equal temperament on A4 = 440 Hz: G3 195.998, B3 246.942, D4 293.665.
    const close = (...tones: number[]) => tones.map((tone) => expect.closeTo(tone, 2));
    expect(tune!.chords).toEqual([
      [2.5, 0.5, close(195.998, 246.942, 293.665)],
      [3.5, 0.5, close(195.998, 246.942, 293.665)],
    ]);
    expect(tune!.drones).toEqual([[2, 2, close(195.998, 293.665)]]);
  });

  it('offers chords and drone only where the tune has them', () => {
    expect(/name="chords"|name="drone"/.test(backed)).toBe(true);
    expect(/name="chords"/.test(hostile)).toBe(false);
    expect(/name="drone"/.test(page('X:1\nT:N\nM:4/4\nK:none clef=bass\nA,,4|]\n'))).toBe(false);
  });
});

describe.skipIf(browserPath === null)('the player of the page', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  it('sounds chords and drone when they are asked for, at its speed', async () => {
    const opened = await browser.newPage();
    // Half a second of count-in at this tempo: all falls within the second that is fed ahead.
    await opened.setContent(page('X:1\nT:B\nM:2/4\nL:1/4\nQ:1/4=480\nK:G clef=bass\n"G"G,2|]\n'));
    await opened.evaluate(() => {
      const started: number[][] = [];
      Object.assign(window, { started });
      const start = OscillatorNode.prototype.start;
      OscillatorNode.prototype.start = function (this: OscillatorNode, at: number) {
        started.push([Math.round(this.frequency.value), at]);
        start.call(this, at);
      };
    });
    const played = async (): Promise<number[][]> => {
      await opened.getByRole('button').click();
      await opened.waitForFunction(() => (window as unknown as { started: number[][] }).started.length > 0);
      const started = await opened.evaluate(() => (window as unknown as { started: number[][] }).started.splice(0));
      await opened.getByRole('button').click();
      const first = Math.min(...started.map(([, at]) => at!));
      return started.map(([frequency, at]) => [frequency!, Math.round((at! - first) * 1e4) / 1e4]);
    };
    const plain = await played();
    expect(plain).toContainEqual([98, 0.25]);
    await opened.getByLabel('Chords').check();
    await opened.getByLabel('Drone').selectOption('root and fifth');
    const backing = (await played()).filter((tone) => !plain.some((other) => `${other}` === `${tone}`));
    expect(backing.sort((a, b) => a[1]! - b[1]! || a[0]! - b[0]!)).toEqual([
      ...[196, 294].map((tone) => [tone, 0.25]),
      ...[196, 247, 294].map((tone) => [tone, 0.3125]),
      ...[196, 247, 294].map((tone) => [tone, 0.4375]),
    ]);
  });
});
