// A tune's low and high version side by side: asked for by command, drawn again on saving, brought back by a reload.
import assert from 'node:assert/strict';
import { bedOfCheckout, demoFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

export async function versions(browser, test) {
  const folder = demoFolder('versions');
  const { work, page, close } = await bedOfCheckout(browser, 'versions', folder);
  const frame = () => page.frameLocator('iframe.webview.ready').last().frameLocator('#active-frame');
  const rows = () => frame().locator('th[scope=row]').allTextContents();
  const bothDrawn = (what, ms = 60_000) => until(what, async () => (await rows()).length > 15, ms);
  try {
    await test('stand side by side, bar by bar', async () => {
      await work.loaded();
      await work.openFile('ferrymans-dare.abc');
      await work.goTo(34, 1);
      // Asked for before the extension has its settings, it says to ask again.
      await until('the two versions', async () => {
        await work.command('Bullfiddle: Show Low and High Side by Side');
        return bothDrawn('the rows', 15_000);
      });
      const pictures = await frame().locator('td svg[role=img]').count();
      assert.equal(pictures, 2 * (await rows()).length);
      assert.match((await frame().locator('th[scope=col]').allTextContents()).join(' '), /low.*high/i);
      await picture(page, 'versions-side-by-side');
    });

    await test('are drawn again when the file is saved', async () => {
      await work.goTo(21, 1);
      await page.keyboard.press('End');
      await page.keyboard.type(' for Ines');
      await page.keyboard.press('Control+s');
      await until('the new title', async () => (await frame().locator('th[scope=col]').allTextContents()).join(' ').includes('for Ines'));
    });

    await test('come back when they were hidden, and after a reload', async () => {
      const tab = page.locator('.tab', { hasText: 'Low and High: ferrymans-dare.abc' }).first();
      await page.keyboard.press('Control+2');
      await work.openHere('bullfiddle.json');
      await until('the panel hidden', async () => (await page.locator('iframe.webview.ready').count()) === 0);
      await tab.click();
      await bothDrawn('the two versions again');
      await page.reload();
      await work.loaded();
      await tab.click();
      await bothDrawn('the two versions after the reload', 150_000);
    });
  } finally {
    await close();
  }
}
