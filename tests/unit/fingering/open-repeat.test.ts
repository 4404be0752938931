// A repeat that goes by on open strings alone is not said to be weighed exactly; one with a stopped note is.
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../../server/src/arrangement/index.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';

const exact = (body: string): boolean | undefined =>
  planStage(readBook(`X:1\nT:t\nM:4/4\nL:1/4\nQ:1/4=80\nK:C clef=bass\n${body}\n`), 0, defaultConfig, makeTables(8e6)).fingered[0]?.plan
    .exact;

it('says so where a pass has no stopped note: the hand of the next pass may be another', () => {
  expect(exact('F,A,B,C|:G,D,A,,E,,:|F,A,B,C|')).toBe(false);
});

it('claims it where the pass stops a string, and where nothing repeats', () => {
  expect(exact('F,A,B,C|:G,D,B,,E,,:|F,A,B,C|')).toBe(true);
  expect(exact('F,A,B,C|G,D,A,,E,,|F,A,B,C|')).toBe(true);
});
