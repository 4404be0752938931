// The page by keyboard alone: the order of the focus, how it shows, choosing a place, playing, and where the focus is after each.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { posted, send, show } from '../../support/page/acting.ts';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const tune = 'X:1\nT:By Keys\nM:4/4\nL:1/4\nQ:1/4=240\nK:G clef=bass\n"G"G,A,B,D|D,E,F,G,|\nA,B,CD|G,4|]\n';
const scene = sceneOf(tune, 0);

/** What has the focus, by its name; '' for the page itself. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (element === null || element === document.body) return '';
    const label = element instanceof HTMLInputElement && element.type === 'checkbox' ? element.parentElement?.textContent : null;
    return element.getAttribute('aria-label') ?? label ?? element.textContent ?? '';
  });

/** Presses keys as a hand does, one after another. */
async function press(page: Page, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

/** Names of all that Tab reaches, from the top of the page. */
async function order(page: Page, key: 'Tab' | 'Shift+Tab', count: number): Promise<string[]> {
  const names: string[] = [];
  for (let i = 0; i < count; i++) {
    await page.keyboard.press(key);
    names.push(await focused(page));
  }
  return names;
}

const choice = { string: 'D', stop: 7, finger: '1', harmonic: false, regret: 1200, effect: 'A shift before it.' };
const choices = ['4', '2', '1'].map((finger) => ({ ...choice, finger }));
const names = choices.map(({ finger }) => `D string, stop 7, finger ${finger}`);

/** Asks for the places of the note in focus, and answers as the host would. */
async function openPlaces(page: Page, given = choices): Promise<number> {
  const before = (await posted(page, 'ask-places')).length;
  await page.keyboard.press(' ');
  await page.waitForFunction(
    (count) => (window as unknown as { posted: { kind: string }[] }).posted.filter(({ kind }) => kind === 'ask-places').length > count,
    before,
  );
  const { ask, note, head } = (await posted(page, 'ask-places')).at(-1)!;
  await send(page, { kind: 'places', ask, note, head, choices: given });
  await page.locator('.places').waitFor();
  return note;
}

describe.skipIf(browserPath === null)('the page by keyboard alone', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await startBrowser();
    page = await openPage(browser);
    await show(page, scene);
  });
  afterAll(() => browser?.close());

  const controls = [
    'Play',
    '3 beats a minute slower',
    'Beats a minute',
    '3 beats a minute faster',
    'First bar',
    'Last bar',
    'Loop',
    'Count-in',
    'Click',
    'Octave guide',
    'Chords',
    'Drone',
  ];

  it('goes through the controls in the order of the eye, then to the notes as one stop', async () => {
    const all = await order(page, 'Tab', controls.length + 1);
    expect(all.slice(0, -1)).toEqual(controls);
    expect(all.at(-1)).toBe('open G string, stop 0');
    const places = await page
      .locator('.controls button, .controls input, .controls select')
      .evaluateAll((elements) => elements.map((each) => each.getBoundingClientRect()).map(({ top, bottom, left }) => [top + bottom, left]));
    for (const [i, [middle, left]] of places.entries()) {
      const [before, leftBefore] = places[i - 1] ?? [0, 0];
      // On its row further right, or on a row below: rows are more than 20 pixels apart.
      expect(middle! - before! > 40 || (Math.abs(middle! - before!) < 20 && left! > leftBefore!)).toBe(true);
    }
    expect(await order(page, 'Shift+Tab', 2)).toEqual(['Drone', 'Chords']);
    await press(page, 'Tab', 'Tab');
  });

  it('shows the focus wherever it is', async () => {
    const unseen: string[] = [];
    for (let i = 0; i <= controls.length; i++) {
      const outline = await page.evaluate(() => {
        const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(document.activeElement!);
        return { style: outlineStyle, width: Number.parseFloat(outlineWidth), color: outlineColor };
      });
      if (outline.style === 'none' || outline.width < 2 || /, 0\)$/.test(outline.color)) unseen.push(await focused(page));
      if (i < controls.length) await press(page, 'Shift+Tab');
    }
    expect(unseen).toEqual([]);
    expect(await focused(page)).toBe('Play');
  });

  it('walks the notes: by one, by system, to the ends', async () => {
    const at = async (...keys: readonly string[]) => {
      await press(page, ...keys);
      return page.evaluate(() => [...document.querySelectorAll('.marks [role="button"]')].indexOf(document.activeElement!));
    };
    expect(await at(...Array(controls.length).fill('Tab'))).toBe(0);
    expect(await at('ArrowLeft')).toBe(0);
    expect(await at('ArrowRight', 'ArrowRight')).toBe(2);
    expect(await at('ArrowDown')).toBe(8);
    expect(await at('End')).toBe(12);
    expect(await at('ArrowUp')).toBe(0);
    expect(await at('ArrowRight', 'Shift+Tab', 'Tab')).toBe(1);
  });

  it('chooses a place, and is back on its note', async () => {
    const here = await focused(page);
    const note = await openPlaces(page);
    expect(await focused(page)).toContain(names[0]!);
    await press(page, 'ArrowDown', 'ArrowDown', 'ArrowDown', 'ArrowUp');
    expect(await focused(page)).toContain(names[2]!);
    await press(page, 'Home', 'Tab');
    expect(await focused(page)).toContain(names[1]!);
    await press(page, 'Shift+Tab', 'Shift+Tab');
    expect(await focused(page)).toContain(names[2]!);
    await press(page, 'Enter');
    expect((await posted(page, 'choose')).at(-1)).toMatchObject({ note, choice: choices[2]! });
    expect(await page.locator('.places').count()).toBe(0);
    expect(await focused(page)).toBe(here);
  });

  it('leaves the list with Escape, and is back on its note; so where there is nothing to choose', async () => {
    const here = await focused(page);
    const chosen = (await posted(page, 'choose')).length;
    for (const given of [choices, []]) {
      await openPlaces(page, given);
      expect(await page.evaluate(() => document.activeElement?.closest('.places') !== null)).toBe(true);
      expect(await page.evaluate(() => getComputedStyle(document.activeElement!).outline)).toMatch(/solid 2px$/);
      await press(page, 'Escape');
      expect(await page.locator('.places').count()).toBe(0);
      expect(await focused(page)).toBe(here);
    }
    expect(await posted(page, 'choose')).toHaveLength(chosen);
  });

  it('keeps its own keys from the editor while the list is open, and leaves it all others', async () => {
    await openPlaces(page);
    await page.evaluate(() => {
      const heard: string[] = [];
      Object.assign(window, { heard });
      window.addEventListener('keydown', ({ key }) => heard.push(key));
    });
    await press(page, 'ArrowDown', 'Tab', 'Control+1', 'F1', 'Escape');
    expect(await page.evaluate(() => (window as unknown as { heard: string[] }).heard)).toEqual(['Control', '1', 'F1']);
  });

  it('stays at its place when the mark in focus changes or goes', async () => {
    await show(page, sceneOf(tune.replace('A,B,D', '!sulG!!1!A,B,D'), 0, 2));
    expect(await focused(page)).toBe('G string, stop 2, first finger');
    await press(page, 'End');
    await show(page, sceneOf(tune.replace('|G,4|]', '|'), 0, 3));
    expect(await focused(page)).toMatch(/string, stop/);
    await press(page, 'Home');
    expect(await focused(page)).toBe('open G string, stop 0');
  });

  it('plays, changes the pace while it plays, and stops with Escape, the focus staying on the control', async () => {
    await show(page, { ...scene, revision: { document: 4, settings: 1 } });
    await press(page, ...Array(controls.length).fill('Shift+Tab'));
    expect(await focused(page)).toBe('Play');
    await press(page, ' ');
    expect(await focused(page)).toBe('Stop');
    await page.locator('.under .playing').waitFor({ state: 'attached' });
    await press(page, 'Tab', 'Enter', 'Enter');
    expect(await page.getByLabel('Beats a minute', { exact: true }).inputValue()).toBe('234');
    await press(page, 'Escape');
    await page.locator('.under .playing').waitFor({ state: 'detached' });
    expect(await focused(page)).toBe('3 beats a minute slower');
    await press(page, 'Shift+Tab');
    expect(await focused(page)).toBe('Play');
  });

  it('goes from a note to its text, and takes the focus along', async () => {
    await press(page, ...Array(controls.length).fill('Tab'), 'ArrowRight', 'Enter');
    const reveal = (await posted(page, 'reveal')).at(-1)!;
    expect([tune.slice(reveal.from, reveal.to), reveal.focus]).toEqual(['A,', 'take']);
  });

  it('says why there is nothing to choose', async () => {
    const other = await openPage(browser);
    const why = async (music: string, version: number) => {
      await show(other, sceneOf(`X:1\nM:4/4\nL:1/4\nK:G clef=bass\n${music}|]\n`, 0, version));
      await openPlaces(other, []);
      const words = await other.locator('.places').textContent();
      await press(other, 'Escape');
      return words;
    };
    await show(other, scene);
    await press(other, ...Array(controls.length + 1).fill('Tab'));
    expect(await why('E,,4', 2)).toBe('There is no other place for this note on this instrument.');
    expect(await why('G,2C,,,2', 3)).toContain('notes that no hand plays');
    await other.close();
  });

  it('never puts what has the focus under the fingerboard, nor beside the window', async () => {
    const zoomed = await openPage(browser, { width: 500, script: 'state = { zoom: 2 };' });
    await zoomed.setViewportSize({ width: 500, height: 460 });
    await show(zoomed, scene);
    await send(zoomed, { kind: 'caret', uri: scene.uri, tune: 0, offset: tune.indexOf('A,'), revision: scene.revision, reveal: 'mark' });
    await zoomed.locator('aside.board').waitFor();
    await press(zoomed, ...Array(controls.length + 1).fill('Tab'));
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowDown', 'End', 'Home']) {
      await press(zoomed, key);
      const [mark, board] = await zoomed.evaluate(() =>
        [document.activeElement!, document.querySelector('aside.board')!].map((each) => {
          const { top, bottom, left, right } = each.getBoundingClientRect();
          return { top, bottom, left, right };
        }),
      );
      expect(mark!.top).toBeGreaterThanOrEqual(0);
      expect(mark!.bottom).toBeLessThanOrEqual(board!.top + 1);
      expect(mark!.left).toBeGreaterThanOrEqual(0);
      expect(mark!.right).toBeLessThanOrEqual(500);
    }
    await zoomed.close();
  });

  it('keeps a long list of places in the window, over a note that stands low, and the choice in focus in sight', async () => {
    const low = await openPage(browser, { width: 500 });
    await low.setViewportSize({ width: 500, height: 400 });
    await show(low, scene);
    await press(low, ...Array(controls.length + 1).fill('Tab'), 'ArrowDown');
    const many = Array.from({ length: 14 }, (_, i) => ({ ...choice, stop: i + 1 }));
    await openPlaces(low, many);
    for (const key of ['Home', 'End']) {
      await press(low, key);
      const [list, focus, note] = await low.evaluate(() =>
        [document.querySelector('.places')!, document.activeElement!, document.querySelector('.marks [tabindex="0"]')!].map((each) => {
          const { top, bottom } = each.getBoundingClientRect();
          return { top, bottom };
        }),
      );
      expect(list!.top).toBeGreaterThanOrEqual(0);
      expect(list!.bottom).toBeLessThanOrEqual(note!.top);
      expect(focus!.top).toBeGreaterThanOrEqual(list!.top);
      expect(focus!.bottom).toBeLessThanOrEqual(list!.bottom);
    }
    await low.close();
  });

  it('brings the note at the caret into view on a sheet wider and longer than the window', async () => {
    const zoomed = await openPage(browser, { script: 'state = { zoom: 2 };' });
    await zoomed.setViewportSize({ width: 500, height: 460 });
    await zoomed.emulateMedia({ reducedMotion: 'reduce' });
    await show(zoomed, scene);
    for (const word of ['G,|\n', 'CD|', '"G"G,']) {
      const offset = tune.indexOf(word) + (word.startsWith('"') ? 3 : 0);
      await send(zoomed, { kind: 'caret', uri: scene.uri, tune: 0, offset, revision: scene.revision, reveal: 'scroll' });
      await zoomed.waitForFunction(() => {
        const box = document.querySelector('.under .caret')?.getBoundingClientRect();
        const floor = document.querySelector('aside.board')!.getBoundingClientRect().top;
        return box !== undefined && box.left >= 0 && box.right <= innerWidth && box.top >= 0 && box.bottom <= floor + 1;
      });
    }
    await zoomed.close();
  });
});
