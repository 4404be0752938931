// What is said of findings that an edit brings or takes away.
import { describe, expect, it } from 'vitest';
import { newsOf } from '../../../client/webview/announce.ts';
import type { SceneFinding } from '../../../server/src/engraving/types.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const scene = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\nG,A,B,D|D,E,F,G,|\n', 0);
const finding = (message: string, note: number, severity: SceneFinding['severity'] = 'warning'): SceneFinding => ({
  from: 0,
  to: 1,
  code: 'a.code',
  severity,
  message,
  notes: [scene.notes[note]!.id],
  rests: 'plan',
});
const news = (before: readonly SceneFinding[], now: readonly SceneFinding[]) => newsOf(before, { scene, findings: now });
const [far, fast, low] = [finding('Too far.', 1), finding('Too fast.', 5), finding('Too low.', 6, 'error')];

describe('news of findings', () => {
  it('says nothing where nothing came or went, whatever moved', () => {
    expect(news([], [])).toBeNull();
    expect(news([far, low], [{ ...low, from: 7, to: 9 }, far])).toBeNull();
  });

  it('reads out what came, with its bar', () => {
    expect(news([far], [far, low])).toBe('Bar 2. Error: Too low.');
    expect(news([], [far, fast])).toBe('Bar 1. Warning: Too far. Bar 2. Warning: Too fast.');
  });

  it('counts those of many that it does not read out', () => {
    expect(news([], [far, fast, low, low])).toBe('Bar 1. Warning: Too far. Bar 2. Warning: Too fast. And 2 more.');
  });

  it('says what went, and when none is left', () => {
    expect(news([far, fast, low], [low])).toBe('2 findings are gone.');
    expect(news([far, low], [low])).toBe('One finding is gone.');
    expect(news([far], [])).toBe('No findings are left.');
    expect(news([far], [low])).toBe('Bar 2. Error: Too low. One finding is gone.');
  });

  it('tells two alike apart from one', () => {
    expect(news([far, far], [far])).toBe('One finding is gone.');
  });
});
