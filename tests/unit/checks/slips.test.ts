// One slip, one finding; a long run is `npm run fuzz`.
import { expect, it } from 'vitest';
import { seeded } from '../../support/random.ts';
import { excuse, slipped } from '../../support/slips.ts';

it('a changed token gives one finding, or there is a written reason why not', () => {
  const all = slipped(140, seeded(3));
  expect(new Set(all.map(({ slip }) => slip)).size).toBe(14);
  expect(all.filter((one) => one.codes.length !== 1 && excuse(one) === null)).toEqual([]);
});
