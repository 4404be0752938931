// Numbers of the tab under their noteheads and clear of each other, measured by the browser over a sample of the open corpora; all of them in the long run (`npm run fuzz placing`).
import { expect, it } from 'vitest';
import { corporaHere } from '../support/corpora.ts';
import { browserPath, openPage, startBrowser } from '../support/page/browser.ts';
import { bassTunes, placingOf } from '../support/page/placing.ts';

const every = 25;

it.skipIf(!corporaHere || browserPath === null)(
  'numbers stand within half a pixel of their heads, with air between them, and no mark touches another',
  async () => {
    const browser = await startBrowser();
    try {
      const page = await openPage(browser);
      let numbers = 0;
      for (const [i, text] of bassTunes()
        .filter((_, at) => at % every === 0)
        .entries()) {
        const placing = await placingOf(page, text, i + 1);
        numbers += placing.numbers;
        expect(placing.farthest, text).toBeLessThanOrEqual(0.5);
        expect(placing.closest, text).toBeGreaterThanOrEqual(1.5);
        expect(placing.fromArc, text).toBeGreaterThanOrEqual(1.5);
        expect(placing.covered, text).toEqual([]);
      }
      expect(numbers).toBeGreaterThan(500);
    } finally {
      await browser.close();
    }
  },
  120_000,
);
