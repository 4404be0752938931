// The workbench suite: a real VS Code workbench in a headless browser, driven as its user would. `run.mjs REPORT [NAME...]` writes its counts.
import { writeFileSync } from 'node:fs';
import { installBed } from '../../scripts/support/bed.mjs';
import { installWebBed } from '../../scripts/support/web-bed.mjs';
import { clicks } from './clicks.mjs';
import { firstTune } from './first-tune.mjs';
import { hardText } from './hard-text.mjs';
import { host } from './host.mjs';
import { keyboard } from './keyboard.mjs';
import { lastCommit } from './last-commit.mjs';
import { newBook } from './new-book.mjs';
import { packaged } from './packaged.mjs';
import { sheets } from './sheets.mjs';
import { latest } from './support/beds.mjs';
import { openBrowser } from './support/browser.mjs';
import { picture } from './support/pictures.mjs';
import { typing } from './typing.mjs';
import { versions } from './versions.mjs';
import { web } from './web.mjs';

/** Each story opens a bed of its own and tells its tests one after another. */
const stories = { firstTune, newBook, hardText, clicks, typing, sheets, keyboard, lastCommit, versions, host, web, packaged };

const [report, ...names] = process.argv.slice(2);
const counts = { passed: 0, failed: 0, skipped: 0 };

/** Runs one test; a failure ends its story, since what follows rests on it. */
function tester(story) {
  return async (title, work) => {
    const start = Date.now();
    try {
      await work();
    } catch (error) {
      error.test = title;
      if (latest !== null) {
        await picture(latest.page, `failed-${story}`);
        console.log(latest.complaints.slice(-15).join('\n'));
      }
      throw error;
    }
    counts.passed++;
    console.log(`  passed: ${story}: ${title} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
  };
}

const late = /^Waited \d+ ms|Timeout \d+ms exceeded|did not end within|No row/;
const broken = /Target (page|closed)|crashed|ECONNREFUSED|net::ERR/i;
/** Faults of the bed, and what did not come in time on a busy machine: worth one more try, and said aloud. What came out wrong is not. */
const isFault = (error) => error.test === undefined || late.test(error.message) || broken.test(error.message);

let browser = null;

async function tell(name, story) {
  for (let tries = 1; ; tries++) {
    const before = counts.passed;
    try {
      if (!browser.isConnected()) browser = await openBrowser();
      await story(browser, tester(name));
      return;
    } catch (error) {
      if (tries === 1 && isFault(error)) {
        console.log(`  ${name}: ${error.test ?? 'the bed'} failed (${error.message.split('\n')[0]}); once more from its start`);
        counts.passed = before;
        continue;
      }
      counts.failed++;
      console.log(`  FAILED: ${name}: ${error.test ?? 'its bed'}\n${error.stack}`);
      return;
    }
  }
}

async function run() {
  const wanted = Object.entries(stories).filter(([name]) => names.length === 0 || names.includes(name));
  browser = await openBrowser();
  if (browser === null || !(await installBed())) {
    await browser?.close();
    console.log(
      `  ${wanted.length} stories skipped: ${browser === null ? 'no Chromium-like browser is installed' : 'the embedded workbench could not be installed'}`,
    );
    counts.skipped += wanted.length;
    return;
  }
  try {
    for (const [name, story] of wanted) {
      if (name !== 'web' || (await installWebBed())) await tell(name, story);
      else {
        console.log('  web: skipped, since the web workbench could not be installed');
        counts.skipped++;
      }
    }
  } finally {
    await browser.close();
  }
}

await run();
if (report) writeFileSync(report, JSON.stringify(counts));
console.log(`${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
process.exit(counts.failed > 0 ? 1 : 0);
