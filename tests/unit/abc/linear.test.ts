// Work grows with the text and no faster: counted, not timed. Every fourth kind of long text here; all of them, and longer, in tests/fuzz/linear.ts.
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { longTexts } from '../../support/long-texts.ts';
import { readAll } from '../../support/trees.ts';
import { workCounter } from '../../support/work.ts';

it('takes at most 2.2 times the work for twice the text, whatever it is', () => {
  const counter = workCounter();
  const work = (text: string): number => counter.count(() => readAll(readBook(text)));
  try {
    for (const { name, of } of longTexts.filter((_, i) => i % 4 === 0)) {
      const [once, twice] = [work(of(1_500)), work(of(3_000))];
      expect(once, name).toBeGreaterThan(0);
      expect(twice / once, name).toBeLessThanOrEqual(2.2);
    }
  } finally {
    counter.close();
  }
});
