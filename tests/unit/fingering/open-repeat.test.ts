// A repeat that goes by on open strings alone is weighed with the hand its second pass carries; where that cannot be done, no exactness is claimed.
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../../server/src/arrangement/index.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';

const exact = (body: string, parts = ''): boolean | undefined =>
  planStage(readBook(`X:1\nT:t\n${parts}M:4/4\nL:1/4\nQ:1/4=80\nK:C clef=bass\n${body}\n`), 0, defaultConfig, makeTables(8e6)).fingered[0]
    ?.plan.exact;

it('weighs a pass of open strings, one with a stopped note, and none', () => {
  expect(exact('F,A,B,C|:G,D,A,,E,,:|F,A,B,C|')).toBe(true);
  expect(exact('F,A,B,C|:G,D,B,,E,,:|F,A,B,C|')).toBe(true);
  expect(exact('F,A,B,C|G,D,A,,E,,|F,A,B,C|')).toBe(true);
});

it('claims nothing where a part of open strings leads into another that is come back to by itself', () => {
  expect(exact('P:A\nG,D,A,,E,,|\nP:B\nF,A,B,C|\nP:C\nB,A,F,C|', 'P:ABABCB\n')).toBe(false);
  expect(exact('P:A\nG,D,B,,E,,|\nP:B\nF,A,B,C|\nP:C\nB,A,F,C|', 'P:ABABCB\n')).toBe(true);
});
