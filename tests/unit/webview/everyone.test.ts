// The page for everyone, in a real browser: what is heard, what can be done by keyboard, what moves, what can be read.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { posted, send, show, violationsIn } from '../../support/page/acting.ts';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const header = 'X:1\nT:For All\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\n';
const bars = (music: string) => `${header}${music}\n`;

const label = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');

describe.skipIf(browserPath === null)('the page for everyone', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  describe('findings', () => {
    it('are heard in the sentence of the note, stop or not, in the order of the music', async () => {
      const page = await openPage(browser);
      const wide = '(!sulG!^G,!sulG!B,)';
      await show(page, sceneOf(bars(`G,A,${wide}|D,E,F,G,|`), 0));
      await page.locator('.marks [tabindex="0"]').focus();
      const heard: string[] = [];
      for (let i = 0; i < 6; i++) {
        heard.push(await label(page));
        await page.keyboard.press('ArrowRight');
      }
      expect(heard.map((each) => /Error: One hand would have to span/.test(each))).toEqual([false, false, true, true, false, false]);
      expect(heard.map((each) => each.startsWith('No stop. Error'))).toEqual([false, false, true, true, false, false]);
      expect(await violationsIn(page)).toEqual([]);
      const tip = await page
        .locator('.marks .finding')
        .first()
        .evaluate((field) => {
          const { left, top, width, height } = field.getBoundingClientRect();
          return document.elementFromPoint(left + width / 2, top + height / 2)?.querySelector('title')?.textContent;
        });
      expect(tip).toMatch(/^One hand would have to span/);
      await page.close();
    });

    it('of a long stretch are told at its first note', async () => {
      const page = await openPage(browser);
      await show(page, sceneOf(`${header.replace('80', '480')}G,A,B,D|G,A,B,D|\n`, 0));
      await page.locator('.marks [tabindex="0"]').focus();
      expect(await label(page)).toMatch(/^open G string, stop 0\. Warning: 8 plucked notes/);
      await page.keyboard.press('ArrowRight');
      expect(await label(page)).toBe('D string, stop 7, first finger. Warning goes on');
      await page.close();
    });

    it('are said once when an edit of the reader, and of nobody else, has brought or taken them, after the hands rest', async () => {
      const page = await openPage(browser);
      await page.evaluate(() => {
        const said: string[] = [];
        new MutationObserver(() => said.push(document.querySelector('.heard')!.textContent!)).observe(document.querySelector('.heard')!, {
          childList: true,
        });
        Object.assign(window, { said });
        // The text is typed in the editor.
        Object.defineProperty(document, 'hasFocus', { value: () => false });
      });
      const said = () => page.evaluate(() => (window as unknown as { said: string[] }).said);
      const changed = async (music: string, version: number, by: 'reader' | 'other') => {
        const scene = sceneOf(bars(music), 0, version);
        await show(page, { ...scene, plans: null, findings: [] });
        if (by === 'reader')
          await send(page, { kind: 'caret', uri: scene.uri, tune: 0, offset: 60, revision: scene.revision, reveal: 'mark' });
        await send(page, {
          kind: 'plan',
          uri: scene.uri,
          tune: 0,
          revision: scene.revision,
          plans: scene.plans!,
          findings: scene.findings,
        });
      };
      const typed = (music: string, version: number) => changed(music, version, 'reader');
      await changed('G,A,B,D|', 1, 'other');
      await changed('G,A,B,D|C,,,,,4|', 2, 'other');
      // As long as it takes for the reader's own edits, and longer.
      await page.waitForTimeout(2000);
      expect(await said()).toEqual([]);
      const low = ['C', 'C,', 'C,,', 'C,,,', 'C,,,,|'];
      for (const [i, note] of low.entries()) await typed(`G,A,B,D|${note}`, 3 + i);
      await page.waitForFunction(() => (window as unknown as { said: string[] }).said.length > 0);
      await typed('G,A,B,D|G,4|', 9);
      await page.waitForFunction(() => (window as unknown as { said: string[] }).said.length > 1);
      const all = await said();
      expect(all).toHaveLength(2);
      expect(all[0]).toMatch(/^Bar 2\. Error: This note sounds/);
      expect(all[1]).toBe('No findings are left.');
      await page.close();
    });
  });

  describe('movement', () => {
    interface Seen {
      readonly scroll: number;
      readonly playing: string;
      readonly animations: number;
    }

    /** Plays four systems through in a low window, and tells what each frame showed. */
    async function framesOfPlaying(page: Page): Promise<readonly Seen[]> {
      await page.setViewportSize({ width: 900, height: 400 });
      await show(page, sceneOf(`${header.replace('80', '480')}${'G,A,B,D|G,A,B,D|\n'.repeat(4)}`, 0));
      await page.evaluate(() => {
        const seen: Seen[] = [];
        const look = (): void => {
          const band = document.querySelector('.under .playing');
          const system = [...document.querySelectorAll('.system')].indexOf(band?.closest('.system') as Element);
          seen.push({
            scroll: window.scrollY,
            playing: band === null ? '' : `${system} ${band.getBoundingClientRect().left}`,
            animations: document.getAnimations().length,
          });
          requestAnimationFrame(look);
        };
        look();
        Object.assign(window, { seen });
      });
      await page.getByRole('button', { name: 'Play' }).click();
      await page.waitForFunction(() => document.querySelector('.under .playing')?.closest('.system')?.nextElementSibling === null);
      await page.getByRole('button', { name: 'Stop', exact: true }).click();
      await page.waitForTimeout(500);
      return page.evaluate(() => (window as unknown as { seen: Seen[] }).seen);
    }

    const places = (seen: readonly Seen[], of: (each: Seen) => unknown): number => new Set(seen.map(of)).size;

    it.each([
      ['the system', 'reduce', ''],
      ['the editor', 'no-preference', 'vscode-reduce-motion'],
    ] as const)(
      'is none where %s asks for less: playing steps, and the page jumps a system at a time',
      async (_who, reducedMotion, name) => {
        const page = await openPage(browser);
        await page.emulateMedia({ reducedMotion });
        await page.evaluate((each) => document.body.classList.add(...(each === '' ? [] : [each])), name);
        const seen = await framesOfPlaying(page);
        expect(places(seen, ({ scroll }) => scroll)).toBeGreaterThan(2);
        // Four systems, and where it began.
        expect(places(seen, ({ scroll }) => scroll)).toBeLessThanOrEqual(5);
        // 32 notes, and nowhere.
        expect(places(seen, ({ playing }) => playing)).toBeLessThanOrEqual(33);
        expect(Math.max(...seen.map(({ animations }) => animations))).toBe(0);
        await page.close();
      },
    );

    it('is smooth scrolling elsewhere', async () => {
      const page = await openPage(browser);
      await page.emulateMedia({ reducedMotion: 'no-preference' });
      const seen = await framesOfPlaying(page);
      expect(places(seen, ({ scroll }) => scroll)).toBeGreaterThan(8);
      await page.close();
    });
  });

  describe('practising', () => {
    const scene = sceneOf(bars('"G"G,A,B,D|'), 0);
    const other = { ...scene, uri: 'file:///other.abc', revision: { document: 2, settings: 1 } };
    const practice = {
      share: 0.75,
      clicks: '1-3',
      countIn: 'none',
      repeat: 'loop',
      guide: 'octave',
      chords: 'soft',
      drone: 'root',
    } as const;
    const usual = { share: 1, clicks: 'none', countIn: 'bar', repeat: 'once', guide: 'none', chords: 'none', drone: 'none' } as const;
    /** What the controls show. */
    const controls = (page: Page) =>
      page.locator('.controls').evaluate((row) => {
        const checked = [...row.querySelectorAll<HTMLInputElement>('[type=checkbox]')].map(({ checked }) => checked);
        return [[...row.querySelectorAll('select')].map(({ value }) => value), checked, row.querySelector('input')!.value];
      });
    const shown = [['1-3', 'root'], [true, false, true, true], '60'];
    const usually = [['none', 'none'], [false, true, false, false], '80'];

    it('is told to the host and to the next life of the page, file by file', async () => {
      const page = await openPage(browser);
      await show(page, scene);
      expect(await controls(page)).toEqual(usually);
      await page.getByLabel('Click').selectOption('1-3');
      await page.getByLabel('Drone').selectOption('root');
      for (const name of ['Loop', 'Count-in', 'Octave guide', 'Chords']) await page.getByLabel(name).click();
      await page.getByLabel('Beats a minute', { exact: true }).fill('60');
      await page.keyboard.press('Enter');
      expect((await posted(page, 'practice')).at(-1)).toMatchObject({ uri: scene.uri, practice });
      await show(page, other);
      expect(await controls(page)).toEqual(usually);
      await show(page, { ...scene, revision: { document: 3, settings: 1 } });
      expect(await controls(page)).toEqual(shown);
      const state = await page.evaluate(() =>
        (globalThis as unknown as { acquireVsCodeApi(): { getState(): unknown } }).acquireVsCodeApi().getState(),
      );
      await page.close();
      const next = await openPage(browser, { script: `state = ${JSON.stringify(state)};` });
      await show(next, scene);
      expect(await controls(next)).toEqual(shown);
      await next.close();
    });

    it('is what the host remembers in a page that remembers nothing of the file', async () => {
      const left = { practices: [[other.uri, usual]] };
      const page = await openPage(browser, { script: `state = ${JSON.stringify(left)};` });
      for (const { uri } of [scene, other]) await send(page, { kind: 'practice', uri, practice });
      await show(page, scene);
      expect(await controls(page)).toEqual(shown);
      await show(page, other);
      expect(await controls(page)).toEqual(usually);
      await page.close();
    });
  });
});
