// version.drift and version.stale: years of revision must lose nothing.
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, partStage } from '../../../server/src/arrangement/index.ts';
import { findingsOf } from '../../../server/src/checks/index.ts';
import { arranged, tune } from '../arrangement/support.ts';

const source = tune('I:bullfiddle tune=reel version=source ; M:2/2 ; L:1/8 ; K:D', 'P:A\nD2F2 A2F2|G2E2 D4|\nP:B\nf2a2 b2a2|g2e2 d4|');
const low = arranged(source, { version: 'low', thin: 'none' }).text;

function found(sourceText: string, lowText: string) {
  const stage = partStage(readBook(`${sourceText}\n${lowText}`), 1, defaultConfig);
  return findingsOf(stage, 'part')
    .filter((one) => one.code.startsWith('version.'))
    .map((one) => `${one.code}: ${stage.text.slice(one.from, one.to).split('|')[0]}: ${one.message.slice(0, 40)}`);
}

it('a version beside its source as it was made from has no finding', () => expect(found(source, low)).toEqual([]));
it('a changed bar of the source gives one finding, at that part', () =>
  expect(found(source.replace('D2F2', 'D2G2'), low)).toEqual(['version.stale: D,2F,2 A,2F,2: The source of part A has changed since t']));
it('a source in another key with all notes moved is not stale, but says that the key differs', () => {
  const moved = source
    .replace('K:D', 'K:G')
    .replace('D2F2 A2F2|G2E2 D4|', 'G2B2 d2B2|c2A2 G4|')
    .replace('f2a2 b2a2|g2e2 d4|', "b2d'2 e'2d'2|c'2a2 g4|");
  expect(found(moved, low)).toEqual(['version.drift: X:2: The key is D here and G in the source; s']);
});
it('a deleted bar gives one finding', () =>
  expect(found(source, low.replace('|G,2E,2 D,4|\nP:B', '|\nP:B'))).toEqual([
    'version.drift: D,2F,2 A,2F,2: Part A has 1 bar here and 2 bars in the ',
  ]));
it('an added part listed as extra gives none', () => {
  const tagged = low.replace('P:A', 'P:K\nD,8|\nP:A').replace('version=low', 'version=low extra=K');
  expect(found(source, tagged)).toEqual([]);
});
it('a part changed on both sides is told as such', () =>
  expect(found(source.replace('D2F2', 'D2G2'), low.replace('D,2F,2 A,2F,2', 'D,2F,2 A,4'))).toEqual([
    'version.stale: D,2F,2 A,4: The source of part A has changed, and th',
  ]));
