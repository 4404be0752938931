// What is heard, sample by sample: the page's own instrument rendered offline in a browser.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planPlaying, type Sound } from '../../../client/webview/player/plan.ts';
import { secondsAt } from '../../../client/webview/player/time.ts';
import { browserPath, bundled, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const rate = 44_100;
const tune = 'X:1\nM:4/4\nL:1/4\nQ:1/4=180\nP:ABA\nK:G clef=bass\nP:A\n|:G,B,DG,|1 (A,B,)G,2:|2 G,4||\nP:B\nD,E,F,G,|]\n';

describe.skipIf(browserPath === null)('sound', () => {
  let browser: Browser;
  let page: Page;
  const { playback, plans } = sceneOf(tune, 0);

  beforeAll(async () => {
    browser = await startBrowser();
    page = await openPage(browser, { script: await bundled('tests/support/page/sound.ts') });
  });
  afterAll(() => browser?.close());

  const planned = (share: number) =>
    planPlaying(playback, plans!, {
      share,
      clicks: 'none',
      countIn: 'none',
      stretch: { from: 0, to: playback.end },
      bassVoices: ['1'],
      guide: 'none',
      chords: 'none',
      drone: 'none',
    });
  /** Notes cut short, so that each begins in silence. */
  const heard = (share: number) => {
    const sounds = planned(share).sounds.map((sound): Sound => (sound.kind === 'note' ? { ...sound, seconds: 0.09 } : sound));
    return page.evaluate(
      ([all, seconds]) =>
        (window as unknown as { onsetsOf(s: readonly Sound[], n: number): Promise<{ at: number; peak: number }[]> }).onsetsOf(all, seconds),
      [sounds, planned(share).round + 0.5] as const,
    );
  };

  it.each([0.5, 0.83, 1])(
    'begins each note within one sample of its time, repeats and parts played out, at %f of the tempo',
    async (share) => {
      const onsets = await heard(share);
      const wanted = playback.events.map((event) => (secondsAt(playback, event.onset) / share) * rate);
      expect(onsets).toHaveLength(wanted.length);
      onsets.forEach(({ at }, i) => {
        expect(at - wanted[i]!).toBeGreaterThanOrEqual(0);
        expect(at - wanted[i]!).toBeLessThanOrEqual(2);
      });
    },
  );

  it('counts as many plucks as the plan has attacks; hammered notes are quieter', async () => {
    const onsets = await heard(1);
    const attacks = planned(1).sounds.flatMap((sound) => (sound.kind === 'note' ? [sound.attack] : []));
    const loudest = (attack: 'pluck' | 'slur') => onsets.filter((_, i) => attacks[i] === attack).map(({ peak }) => peak);
    expect(loudest('slur').length).toBe(attacks.filter((attack) => attack === 'slur').length);
    expect(loudest('slur').length).toBeGreaterThan(0);
    expect(Math.max(...loudest('slur'))).toBeLessThan(Math.min(...loudest('pluck')));
  });
});
