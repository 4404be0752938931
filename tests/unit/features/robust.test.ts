// Features answer on any text, whole or broken, without throwing.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { actions } from '../../../server/src/features/actions/index.ts';
import { defaultFeatureSettings } from '../../../server/src/features/feature.ts';
import { features } from '../../../server/src/features/index.ts';
import { seeded } from '../../support/random.ts';
import { stageOf } from './support.ts';

const demo = readFileSync(resolve(import.meta.dirname, '../../../media/demo/towpath-breakdown.abc'), 'utf8')
  .split('\n\n')
  .slice(2)
  .join('\n\n');

const noise = [
  '|',
  '[',
  ']',
  '!',
  '"',
  '(',
  '{',
  '\n',
  '\n\n',
  'K:',
  '[V:2]',
  '%',
  '\\',
  ':|',
  '~',
  '𝄞',
  '\r',
  'z',
  '!sulG!',
  '"^sul D"',
  '-',
  '>',
];

/** The text with some pieces taken out and some put in. */
function broken(text: string, next: (limit: number) => number): string {
  let out = text;
  for (let i = 0; i < 6; i++) {
    const at = next(out.length);
    out = out.slice(0, at) + (next(2) === 0 ? noise[next(noise.length)]! : '') + out.slice(at + next(4));
  }
  return out.startsWith('X:') ? out : `X:1\n${out}`;
}

/** Every feature that takes an offset, and every feature that takes no question. */
function askAll(text: string, at: number): void {
  const stage = stageOf(text);
  for (const feature of [
    features.wordCompletions,
    features.pinCompletions,
    features.textHover,
    features.pitchHover,
    features.placeHover,
    features.selection,
    features.highlights,
    features.handHighlights,
    features.signature,
    features.definition,
    features.references,
  ])
    feature.answer(stage, at, defaultFeatureSettings);
  for (const feature of [
    features.symbols,
    features.folding,
    features.tokens,
    features.format,
    features.barHints,
    features.placeHints,
    features.lens,
    features.links,
  ])
    feature.answer(stage, null, defaultFeatureSettings);
  features.rename.answer(stage, { at, name: 'Q' }, defaultFeatureSettings);
  for (const action of actions) action.offers(stage, { from: Math.max(0, at - 5), to: at });
}

describe('features', () => {
  it('answer anywhere in a good tune', () => {
    const next = seeded(7).below;
    for (let i = 0; i < 5; i++) askAll(demo, next(demo.length + 1));
  });
  it('answer in broken tunes', () => {
    const next = seeded(11).below;
    for (let i = 0; i < 20; i++) {
      const text = broken(demo.slice(0, 420), next);
      expect(() => askAll(text, next(text.length + 1)), JSON.stringify(text)).not.toThrow();
    }
  });
});
