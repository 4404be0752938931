// Every number of the tab against its notehead and its neighbours, measured in a browser over the corpus tunes. Arguments: tunes (all).
import { browserPath, openPage, startBrowser } from '../support/page/browser.ts';
import { bassTunes, placingOf } from '../support/page/placing.ts';

/** In px at a staff width of 740. */
const most = 0.5;
const leastAir = 1.5;
const all = bassTunes();
const count = Number(process.argv[2] ?? all.length);

if (browserPath === null || all.length === 0) console.log('Wants Chromium and the corpora: nothing was measured.');
else {
  const browser = await startBrowser();
  const page = await openPage(browser);
  let numbers = 0;
  let farthest = 0;
  let closest = Number.POSITIVE_INFINITY;
  let fromArc = Number.POSITIVE_INFINITY;
  for (const [i, text] of all.slice(0, count).entries()) {
    const placing = await placingOf(page, text, i + 1);
    numbers += placing.numbers;
    farthest = Math.max(farthest, placing.farthest);
    closest = Math.min(closest, placing.closest);
    fromArc = Math.min(fromArc, placing.fromArc);
    if (placing.farthest > most || placing.closest < leastAir || placing.fromArc < leastAir || placing.covered.length > 0) {
      const { farthest: off, closest: air, fromArc: arc, covered } = placing;
      console.log(
        `${off.toFixed(2)} px off, ${air.toFixed(2)} apart, ${arc.toFixed(2)} from an arc, covered: ${covered.join()}\n${text}\n`,
      );
      process.exitCode = 1;
    }
  }
  await browser.close();
  console.log(
    `${Math.min(count, all.length)} tunes, ${numbers} numbers: at most ${farthest.toFixed(3)} px from their heads, at least ${closest.toFixed(2)} px apart; fingers ${fromArc.toFixed(2)} px from ties and slurs`,
  );
}
