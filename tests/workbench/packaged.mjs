// The packaged extension as its user gets it: what is inside, and that it installs, opens the demo book, draws and answers.
import assert from 'node:assert/strict';
import { packageExtension, vsix } from '../../scripts/package.mjs';
import { bedOfPackage, demoFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';
import { namesInZip } from './support/zip.mjs';

/** What must be inside, and all that may be. */
const needed = ['extension.js', 'extension.web.js', 'server.js', 'server.web.js', 'webview.js', 'cli.js', 'handout.js'].map(
  (name) => `extension/dist/${name}`,
);
const texts = ['extension/readme.md', 'extension/changelog.md', 'extension/LICENSE.txt', 'extension/package.json'];
const allowed = /^extension\/(dist\/[\w.]+\.js|media\/.+|syntaxes\/[\w.-]+\.json)$|^extension\.vsixmanifest$|^\[Content_Types\]\.xml$/;

export async function packaged(browser, test) {
  await test('holds what runs and what is read, nothing else, in under 2 MB', async () => {
    assert.ok(await packageExtension(), 'it is packaged, and small enough');
    const names = namesInZip(vsix);
    for (const name of [...needed, ...texts, 'extension/media/demo/orrins-lantern.abc'])
      assert.ok(names.includes(name), `${name} is inside`);
    assert.deepEqual(
      names.filter((name) => !allowed.test(name) && !texts.includes(name)),
      [],
    );
  });

  const bed = await bedOfPackage(browser, 'packaged', demoFolder('packaged'), vsix);
  const { work, page } = bed;
  try {
    await test('installs, opens the demo book and draws it', async () => {
      await work.loaded();
      await work.openFile('orrins-lantern.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await work.goTo(26, 1);
      await until('numbers in the tab', async () => (await work.stops()).length > 10, 60_000);
      await picture(page, 'packaged');
    });

    await test('tells of a note on hover', async () => {
      await page.keyboard.press('Control+1');
      await work.goTo(32, 6);
      assert.match(await work.hover(), /string/i);
    });
  } finally {
    await bed.close();
  }
}
