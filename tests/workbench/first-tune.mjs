// The main job as its user does it: type, see tab and squiggle, take the fix, pick a place, click back to the text.
import assert from 'node:assert/strict';
import { bedOfCheckout, demoFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const start = `%abc-2.1
X:1
T:First Tune
M:4/4
L:1/4
Q:1/4=80
K:G clef=bass
G,A,B,D|
`;

/** A test is a title and what it does in the bed that those before it have left. */
export async function firstTune(browser, test) {
  const { writeFileSync } = await import('node:fs');
  const { join } = await import('node:path');
  const folder = demoFolder('first-tune');
  writeFileSync(join(folder, 'first.abc'), start);
  const bed = await bedOfCheckout(browser, 'first-tune', folder);
  const { work, page } = bed;
  try {
    await test('opens the demo book and shows staff and tab beside the text', async () => {
      await work.loaded();
      await work.openFile('orrins-lantern.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await work.goTo(26, 1);
      await until('numbers in the tab', async () => (await work.stops()).length > 10, 60_000);
      await picture(page, 'demo-sheet');
    });

    await test('shows a bar in the tab as it is typed', async () => {
      await work.openFile('first.abc');
      await work.goTo(8, 9);
      await until('the tab of the first bar', async () => (await work.stops()).join(' ') === '0 2 4 7');
      await page.keyboard.press('End');
      page.keyboard.type('D,A,,G,E,,|');
      const stops = await until('the typed bar in the tab', async () => {
        const now = await work.stops();
        return now.length === 8 && now;
      });
      assert.deepEqual(stops.slice(4), ['0', '0', '0', '0']);
      await picture(page, 'typed-bar');
    });

    await test('underlines a slur that no hand plays, says why, and mends it', async () => {
      await page.keyboard.press('End');
      await page.keyboard.type('(!sulG!^G,!sulG!B,)z2|');
      const marker = page.locator('.marker-widget');
      // Half-typed text has findings of its own: go on until the slur's is the one in view.
      const message = await until('the finding of the slur', async () => {
        await page.keyboard.press('Escape');
        await page.keyboard.press('F8');
        await marker.waitFor({ state: 'visible', timeout: 2_000 });
        const now = await marker.textContent();
        return /reach\.too-wide/.test(now) && now;
      });
      assert.ok((await work.squiggles()) > 0, 'the slur is underlined');
      assert.match(message, /158 mm|157\.7 mm/);
      assert.match(message, /126 mm/);
      await picture(page, 'squiggle');
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+.');
      await page.locator('.action-widget .monaco-list-row').first().waitFor({ state: 'visible' });
      await picture(page, 'fixes');
      await page.keyboard.press('Enter');
      await until('no squiggle', async () => (await work.squiggles()) === 0);
      assert.ok(!(await work.text()).join('\n').includes('(!sulG!^G,!sulG!B,)'), 'the fix changes the text');
    });

    await test('pins the place picked from the completions, and the tab follows', async () => {
      await work.goTo(8, 4);
      await page.keyboard.press('Control+Space');
      const row = page.locator('.suggest-widget .monaco-list-row', { hasText: 'D 7' }).first();
      await row.waitFor({ state: 'visible' });
      await picture(page, 'completions');
      await row.click();
      const line = await until('the pin in the text', async () => (await work.text()).find((one) => one.includes('!sulD!')));
      assert.match(line, /^G,(?:!sulD!!\d!|!\d!!sulD!)A,B,D\|/);
      await until('the pinned place in the tab', async () => (await work.stops())[1] === '7');
    });

    await test('goes to the note of a number that is clicked', async () => {
      await work.goTo(1, 1);
      await work.sheet().locator('#sheet .tab-stop[role="button"]').nth(2).click();
      await until('the offered places', () => work.sheet().locator('.places button').first().isVisible());
      await picture(page, 'clicked');
      await until('the third note selected', async () => (await page.locator('.selected-text').count()) === 1);
    });

    await test('goes from a number to its note by keyboard, and takes the focus along', async () => {
      await work.sheet().locator('body').press('Escape');
      // The click has selected that note already.
      await work.goTo(1, 1);
      const third = work.sheet().locator('#sheet .tab-stop[role="button"]').nth(2);
      await third.focus();
      await third.press('Enter');
      // The note is the two units `B,` after `G,!sulD!!1!A,`.
      await until('the third note selected', async () => /Ln 8, Col 1[5-7] \(2 selected\)/.test(await work.caretText()));
    });

    await test('shows pitch and place of a note on hover', async () => {
      await page.keyboard.press('Control+1');
      await work.goTo(8, 1);
      await page.keyboard.press('Control+k');
      await page.keyboard.press('Control+i');
      const hover = page.locator('.monaco-hover:not(.hidden)').first();
      await hover.waitFor({ state: 'visible' });
      await until('the place in the hover', async () => /open G string/i.test(await hover.textContent()));
      await picture(page, 'hover');
      await page.keyboard.press('Escape');
    });

    await test('keeps drawing while the tune is half typed, and shows the last thing typed', async () => {
      await work.goTo(8, 1);
      await page.keyboard.press('End');
      // Keys come faster than they are answered: nothing awaits the single press.
      page.keyboard.type('[G,B, ! "(3 G,');
      await page.keyboard.type('|');
      await until('numbers still there', async () => (await work.stops()).length >= 8);
      for (let i = 0; i < 15; i++) await page.keyboard.press('Backspace');
      await page.keyboard.type('G,,F,,E,,D,|');
      await until('the last bar typed', async () => (await work.stops()).slice(-3).join(' ') === '2 0 0');
    });
  } finally {
    await bed.close();
  }
  return bed;
}
