// The web build: extension and language server in web workers, a virtual folder, the oldest editor we promise.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../../scripts/support/steps.mjs';
import { bedOfWeb } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

export async function web(browser, test) {
  const lantern = readFileSync(join(root, 'media/demo/orrins-lantern.abc'), 'utf8');
  const bed = await bedOfWeb(browser, { 'orrins-lantern.abc': lantern });
  const { work, page } = bed;
  try {
    await test('starts in a browser, opens a tune of a virtual folder and draws it', async () => {
      await work.loaded();
      const row = page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'orrins-lantern.abc' });
      await row.waitFor({ state: 'visible', timeout: 60_000 });
      await row.dblclick();
      await until('the editor', () => page.locator('.tab.active', { hasText: 'orrins-lantern.abc' }).first().isVisible());
      await work.command('Bullfiddle: Open Sheet to the Side');
      await work.goTo(26, 1);
      await until('numbers in the tab', async () => (await work.stops()).length > 10, 60_000);
      await picture(page, 'web');
    });

    await test('answers from the worker: a note tells its place', async () => {
      await page.keyboard.press('Control+1');
      await work.goTo(32, 6);
      assert.match(await work.hover(), /string/i);
    });
  } finally {
    await bed.close();
  }
}
