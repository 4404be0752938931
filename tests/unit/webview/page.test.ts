// The page in a real browser, with a stand-in for the editor: what is painted, clicked, walked by keys, spoken, and kept.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { posted, send, show } from '../../support/page/acting.ts';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';
import { seeded } from '../../support/random.ts';

const header = 'X:1\nT:<img src=x onerror=alert(1)>\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\n';
const tune = `${header}"<b>"G,A,"G7"B,C|!1!A,(A,B,)C|\nD,E,F,G,|[D,A,]4|]\nw:<script>alert(1)</script> x\n`;

/** Middle of the n-th stop on the screen. */
async function stopAt(page: Page, n: number): Promise<{ readonly x: number; readonly y: number }> {
  const box = (await page.locator('.tab-stop').nth(n).boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Boxes of all systems and engraved parts before and after, and which parts of which systems were touched between; the caret's band aside. */
async function changesOf(
  page: Page,
  act: () => Promise<void>,
): Promise<{ readonly boxes: readonly unknown[]; readonly changed: string[] }> {
  const boxes = () =>
    page.locator('.system > svg, .engraving, .engraving path').evaluateAll((all) =>
      all.map((each) => {
        const { x, y, width, height } = each.getBoundingClientRect();
        return [x, y, width, height];
      }),
    );
  const before = await boxes();
  await page.evaluate(() => {
    const changes: string[] = [];
    const systems = [...document.querySelectorAll('.system')];
    const observer = new MutationObserver((records) => {
      for (const { target } of records) {
        const part = (target instanceof Element ? target : target.parentElement)?.closest('.engraving, .marks, .under, .system');
        if (part != null && part.classList[0] !== 'under')
          changes.push(`${part.classList[0]} ${systems.indexOf(part.closest('.system')!)}`);
      }
    });
    observer.observe(document.querySelector('.systems')!, { subtree: true, childList: true, attributes: true, characterData: true });
    Object.assign(window, { changes });
  });
  await act();
  await page.waitForFunction(() => (window as unknown as { changes: string[] }).changes.length > 0);
  const changed = await page.evaluate(() => (window as unknown as { changes: string[] }).changes);
  return { boxes: [before, await boxes()], changed: [...new Set(changed)].sort() };
}

/** All that is drawn, attributes in one order, without the marks of where caret and Tab are. */
const drawn = (page: Page): Promise<string[]> =>
  page.locator('.systems :not(.caret)').evaluateAll((all) =>
    all.map((each) => {
      const attributes = [...each.attributes].filter(({ name }) => name !== 'tabindex').map(({ name, value }) => `${name}=${value}`);
      const own = [...each.childNodes].filter(({ nodeType }) => nodeType === 3).map(({ nodeValue }) => nodeValue);
      return `${each.nodeName} ${attributes.sort().join(' ')} ${own.join('')}`;
    }),
  );

interface Words {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Pairs of texts of one row with less than a pixel between them. */
const touching = (texts: readonly Words[]): string[] =>
  texts.flatMap((a, i) =>
    texts
      .slice(i + 1)
      .filter((b) => a.left < b.right + 1 && b.left < a.right + 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1)
      .map((b) => `${a.text} ${b.text}`),
  );

/** The tunes of the demonstration book that are sung, with their texts and indices. */
function demoTunes(): [name: string, text: string, tune: number][] {
  const folder = join(import.meta.dirname, '../../../media/demo');
  const books = readdirSync(folder).filter((name) => name.endsWith('.abc'));
  return books.flatMap((name) => {
    const text = readFileSync(join(folder, name), 'utf8');
    return readBook(text).tunes.flatMap(({ tree }, i): [string, string, number][] =>
      tree.lines.some(({ line }) => line.kind === 'lyrics') ? [[`${name} ${i + 1}`, text, i]] : [],
    );
  });
}

describe.skipIf(browserPath === null)('the page', () => {
  let browser: Browser;
  let page: Page;
  const scene = sceneOf(tune, 0);

  beforeAll(async () => {
    browser = await startBrowser();
    page = await openPage(browser);
    await show(page, scene);
  });
  afterAll(() => browser?.close());

  it('says that it is ready and what it has painted, and lets nothing of the tune become markup', async () => {
    expect(await posted(page, 'ready')).toHaveLength(1);
    expect((await posted(page, 'painted'))[0]).toMatchObject({ uri: scene.uri, revision: scene.revision, what: 'scene' });
    expect(await page.locator('h1').textContent()).toBe('<img src=x onerror=alert(1)>');
    expect(await page.locator('#sheet img, #sheet b, #sheet script').count()).toBe(0);
  });

  it('leads a click on a stop to its head in the text, with the revision shown', async () => {
    const { x, y } = await stopAt(page, 2);
    await page.mouse.click(x, y);
    const reveal = (await posted(page, 'reveal')).at(-1)!;
    expect(tune.slice(reveal.from, reveal.to)).toBe('B,');
    expect(reveal).toMatchObject({ tune: 0, revision: scene.revision });
    expect(reveal.age).toBeGreaterThanOrEqual(0);
    const ask = (await posted(page, 'ask-places')).at(-1)!;
    expect(ask).toMatchObject({ note: scene.notes[2]!.id, head: 0 });
  });

  it('says of a click how long ago it was', async () => {
    const { x, y } = await stopAt(page, 1);
    await page.evaluate(
      ([clientX, clientY]) => {
        const event = new MouseEvent('click', { clientX, clientY, bubbles: true });
        // As if the page had been drawing since.
        Object.defineProperty(event, 'timeStamp', { value: performance.now() - 700 });
        document.elementFromPoint(clientX, clientY)!.dispatchEvent(event);
      },
      [x, y] as const,
    );
    const { age } = (await posted(page, 'reveal')).at(-1)!;
    expect(age).toBeGreaterThanOrEqual(700);
  });

  it('leads a click on a chord symbol to its quotes', async () => {
    const box = (await page.locator('.engraving text[data-name="chord"]').last().boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    const reveal = (await posted(page, 'reveal')).at(-1)!;
    expect(tune.slice(reveal.from, reveal.to)).toBe('"G7"');
  });

  it('leads a click on a syllable to it in the text, whichever its verse', async () => {
    const text = `${header}G,A,B,C|\nw:The lan-tern swings\nw:old lan-tern comes\n`;
    const sung = await openPage(browser);
    await show(sung, sceneOf(text, 0));
    const clickOn = async (word: string, n: number): Promise<number> => {
      const box = (await sung.locator('.engraving [data-name="lyric"] tspan', { hasText: word }).nth(n).boundingBox())!;
      await sung.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      const reveal = (await posted(sung, 'reveal')).at(-1)!;
      expect(text.slice(reveal.from, reveal.to)).toContain(word);
      return reveal.from;
    };
    expect(await clickOn('swings', 0)).toBe(text.indexOf('swings'));
    expect(await clickOn('comes', 0)).toBe(text.indexOf('comes'));
    expect(await clickOn('tern', 0)).toBe(text.indexOf('tern'));
    await sung.close();
  });

  it('chooses another place with keys alone', async () => {
    await page.locator('.tab-stop[tabindex="0"]').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press(' ');
    const ask = (await posted(page, 'ask-places')).at(-1)!;
    const choice = { string: 'D', stop: 7, finger: '1', harmonic: false, regret: 1200, effect: 'A shift before it.' };
    await send(page, { kind: 'places', ask: ask.ask, note: ask.note, head: ask.head, choices: [{ ...choice, finger: '4' }, choice] });
    await page.locator('.places button').first().waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect((await posted(page, 'choose')).at(-1)).toMatchObject({ note: ask.note, choice });
    expect(await page.locator('.places').count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/string/);
  });

  it('marks the note at the caret and shows the hand for it', async () => {
    await send(page, { kind: 'caret', uri: scene.uri, tune: 0, offset: tune.indexOf('E,'), revision: scene.revision, reveal: 'mark' });
    await page.locator('.under .caret').waitFor({ state: 'attached' });
    expect(await page.locator('.board .words').textContent()).toMatch(/string/);
  });

  it('keeps the last good picture while the library fails, and says so', async () => {
    const before = await page.locator('.system > svg').count();
    const broken = { ...scene, revision: { document: 2, settings: 1 }, engraving: { ...scene.engraving, text: null as unknown as string } };
    await show(page, broken);
    expect(await page.locator('.system > svg').count()).toBe(before);
    expect(await page.locator('.notice').textContent()).toContain('last picture');
    await show(page, sceneOf(tune, 0, 3));
    expect(await page.locator('.notice').textContent()).toBe('');
  });

  it('keeps the last good picture while there is no tune to show, and says so', async () => {
    const before = await drawn(page);
    await send(page, { kind: 'nothing', message: 'There is no tune.' });
    await page.waitForFunction(() => document.querySelector('.notice')!.textContent === 'There is no tune.');
    expect(await drawn(page)).toEqual(before);
    await show(page, sceneOf(tune, 0, 4));
    expect(await page.locator('.notice').textContent()).toBe('');
    expect(await drawn(page)).toEqual(before);
  });

  it('moves nothing when the plan comes late, and touches no system that an edit leaves alone', async () => {
    const fresh = await openPage(browser);
    const late = { ...sceneOf(tune, 0, 4), plans: null };
    await show(fresh, late);
    const stood = await changesOf(fresh, () =>
      send(fresh, { kind: 'plan', uri: scene.uri, tune: 0, revision: late.revision, plans: scene.plans!, findings: [] }),
    );
    expect(stood.boxes[1]).toEqual(stood.boxes[0]);
    expect(stood.changed).toEqual(['marks 0', 'marks 1']);
    const edited = await changesOf(fresh, () => show(fresh, sceneOf(tune.replace('D,E,F,G,', 'D,E,F,D,'), 0, 5)));
    expect(new Set(edited.changed)).toEqual(new Set(['engraving 1', 'marks 1']));
    await fresh.close();
  });

  it('keeps the numbers of notes that an edit leaves alone until the plan comes, and touches no system but the edited one', async () => {
    const fresh = await openPage(browser);
    await show(fresh, sceneOf(tune, 0, 1));
    const all = await fresh.locator('.tab-stop').count();
    const now = sceneOf(tune.replace('D,E,F,G,', 'D,E,F,D,'), 0, 2);
    const edited = await changesOf(fresh, () => show(fresh, { ...now, plans: null }));
    expect(new Set(edited.changed)).toEqual(new Set(['engraving 1', 'marks 1']));
    expect(await fresh.locator('.tab-stop').count()).toBe(all - 1);
    const planned = await changesOf(fresh, () =>
      send(fresh, { kind: 'plan', uri: now.uri, tune: 0, revision: now.revision, plans: now.plans!, findings: now.findings }),
    );
    expect(planned.changed).toContain('marks 1');
    expect(await fresh.locator('.tab-stop').count()).toBe(all);
    await fresh.close();
  });

  it('shows after edits what a fresh page shows', async () => {
    const random = seeded(11);
    const pieces = ['G,', 'D,2', '(', ')', '|', '!4!', '!>!', '"Am"', 'z', '{E,}', '[G,D]', '\n', '^F,', '-'];
    let text = tune;
    for (let i = 0; i < 12; i++) {
      const at = header.length + random.below(text.length - header.length);
      text = text.slice(0, at) + random.pick(pieces) + text.slice(at + random.below(2));
      await show(page, sceneOf(text, 0, 10 + i));
    }
    const fresh = await openPage(browser);
    await show(fresh, sceneOf(text, 0));
    expect(await drawn(page)).toEqual(await drawn(fresh));
    await fresh.close();
  });

  it('draws the half of a hammer-on that an edit of the next system brings, and takes it away again', async () => {
    const joined = `${header}G,A,G,(A,|\nB,)A,G,2|]\n`;
    const texts = [joined.replace('B,)', 'A,)'), joined, joined.replace(/[()]/g, '')];
    const halves: string[][] = [];
    for (const [i, text] of texts.entries()) {
      await show(page, sceneOf(text, 0, 40 + i));
      halves.push(
        await page
          .locator('.system')
          .evaluateAll((systems) => systems.map((system) => String(system.querySelectorAll('.hammer-arc').length))),
      );
    }
    expect(halves).toEqual([
      ['0', '0'],
      ['1', '1'],
      ['0', '0'],
    ]);
  });

  const sung = [
    ...demoTunes(),
    [
      'crowded words',
      `X:1\nM:4/4\nL:1/8\nQ:"Slow and steady" 1/4=60\nK:G clef=bass\nP:Kick-off\n"Gmaj7"G,"Am7"A,"Bm7"B,"Cmaj7"C [DD,]2 (B,A,)|"D7sus4"[G,D,]8|\nw:through-out straight strengths wide-spread * thoughts scratched, screeched\n`,
      0,
    ] as const,
  ];

  it.each(sung)('keeps words, chords, tempo and parts clear of each other: %s', async (_name, text, tune) => {
    const narrow = await openPage(browser, { width: 600 });
    await show(narrow, sceneOf(text, tune));
    const texts = await narrow.locator('.system').evaluateAll((systems) =>
      systems.map((system) =>
        [...system.querySelectorAll('.engraving text')].map((each) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return { text: each.textContent ?? '', left, right, top, bottom };
        }),
      ),
    );
    await narrow.close();
    expect(texts.flat().length).toBeGreaterThan(5);
    expect(texts.flatMap(touching)).toEqual([]);
  });
});
