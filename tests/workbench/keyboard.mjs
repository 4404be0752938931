// The sheet by keyboard alone in a real workbench: into it, along its notes, another place, playing, and back to the text; and what is said of findings.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, emptyFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const music = 'G,A,B,D|D,E,F,G,|';
const text = `%abc-2.1\nX:1\nT:By Keys\nM:4/4\nL:1/4\nQ:1/4=160\nK:G clef=bass\n${music}\n`;

export async function keyboard(browser, test) {
  const folder = emptyFolder('keyboard');
  writeFileSync(join(folder, 'keys.abc'), text);
  const { work, page, close } = await bedOfCheckout(browser, 'keyboard', folder);
  const press = async (...keys) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  /** Name of what has the focus in the sheet; '' for none. */
  const focused = () =>
    work
      .sheet()
      .locator('body')
      .evaluate(({ ownerDocument: { activeElement, body } }) =>
        activeElement === body || activeElement === null ? '' : (activeElement.getAttribute('aria-label') ?? activeElement.textContent),
      );
  const focusOn = (name) => until(`the focus on ${name}`, async () => name.test(await focused()));
  /** Goes on with a key until the focus is on what is wanted; no further than round the page. */
  async function goBy(key, name) {
    for (let i = 0; i < 40; i++) {
      if (name.test(await focused())) return;
      await press(key);
    }
    throw new Error(`${key} does not lead to ${name}`);
  }
  const musicLine = async () => (await work.text()).find((line) => line.includes('|'));
  const heard = () => work.sheet().locator('.heard').textContent();

  try {
    await test('goes into the sheet and along its notes', async () => {
      await work.loaded();
      await work.openFile('keys.abc');
      await work.goTo(8, 1);
      await work.command('Bullfiddle: Open Sheet to the Side');
      await until('the tab', async () => (await work.stops()).length === 8);
      await press('Control+2');
      await until('the focus in the sheet', () => page.evaluate(() => document.activeElement?.matches('iframe.webview') === true));
      await goBy('Tab', /^open G string/);
      await press('ArrowRight');
      await focusOn(/^G string, stop 2/);
      await picture(page, 'keyboard-note');
    });

    await test('chooses another place with keys, in one step to undo, and stays on the note', async () => {
      await press('Space');
      await until('the list', () => work.sheet().locator('.places').isVisible());
      await picture(page, 'keyboard-places');
      await press('Escape');
      await focusOn(/^G string, stop 2/);
      assert.equal(await work.sheet().locator('.places').count(), 0);
      await press('Space');
      await until('the list again', () => work.sheet().locator('.places').isVisible());
      await press('ArrowDown', 'Enter');
      const line = await until('the pin in the text', async () => {
        const now = await musicLine();
        return now.includes('!sul') && now;
      });
      assert.match(line, /^G,(!sul\w!|!\w+!)+A,B,D\|/);
      await focusOn(/string, stop (?!2,)/);
      await press('Control+1', 'Control+z');
      await until('the text as it was', async () => (await musicLine()) === music);
    });

    await test('plays and stops with keys', async () => {
      await press('Control+2');
      await until('the focus in the sheet', () => page.evaluate(() => document.activeElement?.matches('iframe.webview') === true));
      await goBy('Shift+Tab', /^Play$/);
      await press('Space');
      await focusOn(/^Stop$/);
      await work.sheet().locator('.under .playing').waitFor({ state: 'attached' });
      await picture(page, 'keyboard-playing');
      await press('Escape');
      await focusOn(/^Play$/);
      await work.sheet().locator('.under .playing').waitFor({ state: 'detached' });
    });

    await test('goes from a note to its text', async () => {
      await goBy('Tab', /^(open )?\w string/);
      await press('Home', 'ArrowRight', 'ArrowRight', 'Enter');
      await until('the third note selected', async () => /Ln 8, Col [57] \(2 selected\)/.test(await work.caretText()));
      await press('ArrowRight', 'End');
    });

    await test('says a finding that is typed, and that it is gone, once the hands rest', async () => {
      await page.keyboard.type('G,2C,,,2|');
      await until('the finding', async () => /^Bar 3\. Error: .*lowest string/.test(await heard()));
      await picture(page, 'keyboard-finding');
      await press('Backspace', 'Backspace', 'Backspace', 'Backspace', 'Backspace');
      await page.keyboard.type('2|');
      await until('that it is gone', async () => (await heard()) === 'No findings are left.');
    });
  } finally {
    await close();
  }
}
