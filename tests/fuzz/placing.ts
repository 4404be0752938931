// Every number of the tab against its notehead, measured in a browser over the corpus tunes. Arguments: tunes (all).
import { browserPath, openPage, startBrowser } from '../support/page/browser.ts';
import { bassTunes, placingOf } from '../support/page/placing.ts';

/** In px at a staff width of 740. */
const most = 0.5;
const all = bassTunes();
const count = Number(process.argv[2] ?? all.length);

if (browserPath === null || all.length === 0) console.log('Wants Chromium and the corpora: nothing was measured.');
else {
  const browser = await startBrowser();
  const page = await openPage(browser);
  let numbers = 0;
  let farthest = 0;
  for (const [i, text] of all.slice(0, count).entries()) {
    const placing = await placingOf(page, text, i + 1);
    numbers += placing.numbers;
    farthest = Math.max(farthest, placing.farthest);
    if (placing.farthest > most) {
      console.log(`${placing.farthest.toFixed(2)} px off:\n${text}\n`);
      process.exitCode = 1;
    }
  }
  await browser.close();
  console.log(`${Math.min(count, all.length)} tunes, ${numbers} numbers: at most ${farthest.toFixed(3)} px from their heads`);
}
