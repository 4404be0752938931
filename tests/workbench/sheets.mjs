// Sheets through what befalls them: hidden, reloaded, locked, given hostile text, shown in other themes.
import assert from 'node:assert/strict';
import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, demoFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

/** The recorded bass as the project holds it. */
const bassFolder = join(import.meta.dirname, '../../media/bass');

const tune = (title, music, words = '') => `%abc-2.1\nX:1\nT:${title}\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\n${music}\n${words}`;
const files = {
  'one.abc': tune('One', 'G,A,B,D|'),
  'two.abc': tune('Two', 'D,A,,G,E,,|'),
  'hostile.abc': tune('<img src=x onerror=document.title="broken">', 'G,A,B,D|', 'w:<img~src=x> <b>bold</b> &amp; <script>x</script>\n'),
};

export async function sheets(browser, test) {
  const folder = demoFolder('sheets');
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const { work, page, close } = await bedOfCheckout(browser, 'sheets', folder);
  const drawn = (what, stops, ms = 60_000) => until(what, async () => (await work.stops()).join(' ') === stops, ms);
  /** The controls as they are set: click, loop, count-in, tempo. */
  const practice = async () => {
    const controls = work.sheet().locator('.controls');
    return [
      await controls.getByLabel('Click').inputValue(),
      await controls.getByLabel('Loop').isChecked(),
      await controls.getByLabel('Count-in').isChecked(),
      await controls.getByLabel('Beats a minute', { exact: true }).inputValue(),
    ].join(' ');
  };
  const practised = (what, wanted) => until(what, async () => (await practice()) === wanted);
  const tab = (title) => page.locator('.tab', { hasText: title }).first();
  try {
    await test('comes back when it was hidden, and after a reload', async () => {
      await work.loaded();
      await work.openFile('one.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await drawn('the sheet', '0 2 4 7');
      const controls = work.sheet().locator('.controls');
      await controls.getByLabel('Click').selectOption('2-4');
      await controls.getByLabel('Loop').check();
      await controls.getByLabel('Count-in').uncheck();
      await controls.getByLabel('3 beats a minute slower').click();
      await practised('the controls set', '2-4 true false 77');
      await page.keyboard.press('Control+2');
      await work.openHere('bullfiddle.json');
      await until('the sheet hidden', async () => (await page.locator('iframe.webview.ready').count()) === 0);
      await tab('Sheet: one.abc').click();
      await drawn('the sheet again', '0 2 4 7');
      await practised('the controls as they were', '2-4 true false 77');
      await page.reload();
      await work.loaded();
      // Which of two tabs was in front is written down late: a reload may bring the other one.
      await tab('Sheet: one.abc').click();
      // A reload starts a new extension host while the old one still ends.
      await drawn('the sheet after the reload', '0 2 4 7', 150_000);
      await practised('the controls after the reload', '2-4 true false 77');
    });

    await test('practises a file as the last time in a new sheet, and another file as usual', async () => {
      await tab('Sheet: one.abc').hover();
      await tab('Sheet: one.abc').locator('.codicon-close').click();
      await until('the sheet closed', async () => (await tab('Sheet: one.abc').count()) === 0);
      await work.openFile('two.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await drawn('the second file', '0 0 0 0');
      await practised('the usual controls', 'none false true 80');
      await work.openFile('one.abc');
      await drawn('the first file', '0 2 4 7');
      await practised('the controls of the first file', '2-4 true false 77');
    });

    await test('plays on the recorded bass that the extension brings along', async () => {
      const sheet = work.sheet().locator('body');
      await sheet.evaluate(() => {
        window.addEventListener('message', ({ data }) => {
          if (data.kind === 'samples') window.heldSamples = data.samples.map(({ root, bytes }) => `${root}.ogg ${bytes.length}`);
        });
      });
      await work.sheet().getByRole('button', { name: 'Play', exact: true }).click();
      const held = await until('the samples', () => sheet.evaluate(() => window.heldSamples ?? null));
      const files = readdirSync(bassFolder).filter((name) => name.endsWith('.ogg'));
      assert.deepEqual(
        held,
        files.map((name) => `${name} ${statSync(join(bassFolder, name)).size}`),
      );
      await until('a note that is marked as it sounds', async () => (await work.sheet().locator('.playing').count()) > 0);
      await work.sheet().getByRole('button', { name: 'Stop', exact: true }).click();
    });

    await test('keeps a locked sheet on its file beside another that follows', async () => {
      await work.openFile('one.abc');
      await work.command('Bullfiddle: Lock or Unlock Sheet to Its File');
      await until('the lock', () => tab('Locked: one.abc').isVisible());
      await work.openFile('two.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await until('the second sheet', () => tab('Sheet: two.abc').isVisible());
      await drawn('the second file', '0 0 0 0');
      await tab('Locked: one.abc').click();
      await drawn('the first file', '0 2 4 7');
      await tab('Sheet: two.abc').click();
      await drawn('the second file again', '0 0 0 0');
    });

    await test('draws what is typed into two files, each on its own sheet', async () => {
      const bar = 'E,,F,,G,,F,,|';
      const typedBar = (what, stops) =>
        until(what, async () => {
          const now = await work.stops();
          return now.length === stops && now.slice(-4).join(' ') === '0 2 3 2';
        });
      await work.openFile('two.abc');
      await work.goTo(8, 'D,A,,G,E,,|'.length + 1);
      page.keyboard.type(bar);
      await typedBar('the bar typed into the second file', 8);
      await tab('Locked: one.abc').click();
      await drawn('the first file as it was', '0 2 4 7');
      await work.openFile('one.abc');
      await work.goTo(8, 'G,A,B,D|'.length + 1);
      page.keyboard.type(bar);
      await typedBar('the bar typed into the first file', 8);
      page.keyboard.type(bar);
      await typedBar('one more', 12);
      await work.openFile('two.abc');
      await tab('Sheet: two.abc').click();
      await typedBar('the second file as it was', 8);
    });

    await test('shows hostile titles and words as the text they are', async () => {
      await work.openFile('hostile.abc');
      await until('its sheet', () => tab('Sheet: hostile.abc').isVisible());
      await drawn('its tab', '0 2 4 7');
      const text = await until('its title', async () => {
        const now = await work.sheet().locator('#sheet').textContent();
        return now.includes('<img src=x') && now;
      });
      assert.match(text, /onerror/);
      assert.equal(await work.sheet().locator('#sheet img, #sheet b, #sheet script').count(), 0);
      await picture(page, 'hostile');
    });

    const dress = (theme) => {
      mkdirSync(join(folder, '.vscode'), { recursive: true });
      writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify({ 'workbench.colorTheme': theme }));
    };
    for (const [name, theme, mark] of [
      ['dark', 'Default Dark Modern', '.vscode-dark'],
      ['high-contrast', 'Default High Contrast', '.vscode-high-contrast'],
      ['high-contrast-light', 'Default High Contrast Light', '.vscode-high-contrast-light'],
    ]) {
      await test(`takes the colours of a theme: ${name}`, async () => {
        await work.openFile('orrins-lantern.abc');
        await work.goTo(40, 1);
        dress(theme);
        await work.sheet().locator(`body${mark}`).waitFor({ state: 'attached', timeout: 60_000 });
        await until('numbers in the tab', async () => (await work.stops()).length > 10, 60_000);
        const [ink, ground] = await work
          .sheet()
          .locator('#sheet svg')
          .first()
          .evaluate((svg) => {
            const { color } = getComputedStyle(svg);
            return [color, getComputedStyle(document.body).backgroundColor];
          });
        assert.notEqual(ink, ground);
        await picture(page, `theme-${name}`);
      });
    }
  } finally {
    await close();
  }
}
