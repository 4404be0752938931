// The extension-host suite in the embedded workbench: the same one that a desktop editor runs.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { root } from '../../scripts/support/steps.mjs';
import { bedOfCheckout, demoFolder } from './support/beds.mjs';
import { ofTheBed } from './support/browser.mjs';

const suite = join(root, 'tests/workbench/suite/index.cjs');

export async function host(browser, test) {
  const bed = await bedOfCheckout(browser, 'host', demoFolder('host'), { suite });
  try {
    await test('passes the suite of the extension host', async () => {
      const limit = new Promise((_, fail) => setTimeout(() => fail(new Error('The suite did not end within 5 minutes.')), 300_000).unref());
      const code = await Promise.race([bed.finished, limit]).finally(() =>
        console.log(bed.log.filter((line) => !ofTheBed.test(line)).join('\n')),
      );
      assert.equal(code, 0);
    });
  } finally {
    await bed.close();
  }
}
