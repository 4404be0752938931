// The page and its recorded bass: asked for once, before the first sound, and not waited for in vain.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleRoots } from '../../../client/webview/player/samples.ts';
import { posted, show } from '../../support/page/acting.ts';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const scene = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\nG,A,B,D|G,A,B,D|]\n', 0);
const files = sampleRoots.map((root) => ({
  root,
  bytes: [...readFileSync(join(import.meta.dirname, `../../../media/bass/${root}.ogg`))],
}));

describe.skipIf(browserPath === null)('the recorded bass', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  /** A page that plays at once, and counts the sources that are started: of long buffers (strings are 3 s) and of others. */
  async function opened(): Promise<Page> {
    const page = await openPage(browser);
    await page.evaluate(() => {
      const started: number[] = [];
      const { start } = AudioBufferSourceNode.prototype;
      AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, ...when: number[]) {
        started.push(this.buffer!.duration);
        start.apply(this, when as [number]);
      };
      Object.assign(window, { started });
    });
    await show(page, scene);
    await page.getByLabel('Count-in').uncheck();
    return page;
  }
  const play = (page: Page) => page.getByRole('button', { name: 'Play', exact: true }).click();
  const stop = (page: Page) => page.getByRole('button', { name: 'Stop', exact: true }).click();
  /** Seconds of the buffer of the first note of this playing. */
  async function firstBuffer(page: Page): Promise<number> {
    await page.waitForFunction(() => (window as unknown as { started: number[] }).started.length > 0);
    return page.evaluate(() => (window as unknown as { started: number[] }).started.splice(0)[0]!);
  }
  const answer = (page: Page, samples: readonly { readonly root: number; readonly bytes: readonly number[] }[]) =>
    page.evaluate(
      (given) =>
        (window as unknown as { send(message: object): void }).send({
          kind: 'samples',
          samples: given.map(({ root, bytes }) => ({ root, bytes: Uint8Array.from(bytes) })),
        }),
      samples,
    );

  it('is asked for once and played from', async () => {
    const page = await opened();
    // However slow the machine of the test: patience has no end here.
    await page.evaluate(() => {
      const { setTimeout } = window;
      Object.assign(window, { setTimeout: (act: () => void, ms: number) => setTimeout(act, ms >= 800 ? 1e9 : ms) });
    });
    await play(page);
    expect(await posted(page, 'ask-samples')).toEqual([{ kind: 'ask-samples', roots: sampleRoots }]);
    await answer(page, files);
    expect(await firstBuffer(page)).toBeLessThan(2.5);
    await stop(page);
    await play(page);
    expect(await firstBuffer(page)).toBeLessThan(2.5);
    expect(await posted(page, 'ask-samples')).toHaveLength(1);
    await page.close();
  });

  it('is not waited for in vain, and taken up at the next start', async () => {
    const page = await opened();
    await play(page);
    expect(await firstBuffer(page)).toBe(3);
    await answer(page, files);
    await stop(page);
    await expect
      .poll(async () => {
        await play(page);
        const buffer = await firstBuffer(page);
        await stop(page);
        return buffer;
      })
      .toBeLessThan(2.5);
    await page.close();
  });

  it('gives way to calculated strings where the host has none', async () => {
    const page = await opened();
    await play(page);
    await answer(page, []);
    expect(await firstBuffer(page)).toBe(3);
    await page.close();
  });
});
