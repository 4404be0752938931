// The driver of a long replay of typing in the embedded workbench: `endurance.mjs FOLDER` replays the `replay.json` in a folder on its `tune.abc` and prints a line of JSON for each sample.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { installBed } from '../../scripts/support/bed.mjs';
import { root } from '../../scripts/support/steps.mjs';
import { bedOfCheckout } from './support/beds.mjs';
import { ofTheBed, openBrowser } from './support/browser.mjs';

const [folder] = process.argv.slice(2);
const suite = join(root, 'tests/workbench/suite/endurance.cjs');
const sampleFile = join(folder, 'sample.json');

/** Workbench and sheet share one thread and one heap in this browser. */
async function pageMemory(cdp) {
  await cdp.send('HeapProfiler.collectGarbage');
  const { usedSize, embedderHeapUsedSize, backingStorageSize } = await cdp.send('Runtime.getHeapUsage');
  return { heap: usedSize, outside: embedderHeapUsedSize + backingStorageSize, arrays: backingStorageSize };
}

async function replay(browser) {
  const bed = await bedOfCheckout(browser, 'endurance', folder, { suite, seconds: 3600 });
  try {
    const cdp = await bed.page.context().newCDPSession(bed.page);
    let code = null;
    void bed.finished.then((ended) => {
      code = ended;
    });
    while (code === null) {
      await new Promise((done) => setTimeout(done, 50));
      if (!existsSync(sampleFile)) continue;
      const sample = JSON.parse(readFileSync(sampleFile, 'utf8'));
      console.log(JSON.stringify({ ...sample, page: await pageMemory(cdp) }));
      rmSync(sampleFile);
    }
    if (code !== 0) throw new Error(`The replay failed.\n${bed.log.filter((line) => !ofTheBed.test(line)).join('\n')}`);
  } finally {
    await bed.close();
  }
}

const browser = (await installBed()) ? await openBrowser() : null;
if (browser === null) console.error('Wants Chromium and the embedded workbench: nothing was measured.');
else {
  try {
    await replay(browser);
  } finally {
    await browser.close();
  }
}
