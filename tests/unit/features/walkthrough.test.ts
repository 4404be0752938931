// The walkthrough promises what there is: its pages, its commands, the titles of its actions, the errors of its examples.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { readConfigFile } from '../../../server/src/arrangement/index.ts';
import { arrangeVersions } from '../../../server/src/features/actions/arrange.ts';
import { ink } from '../../../server/src/features/actions/ink.ts';
import { stageOf } from './support.ts';

const root = resolve(import.meta.dirname, '../../..');
const read = (path: string): string => readFileSync(resolve(root, path), 'utf8');
interface Manifest {
  readonly contributes: {
    readonly commands: readonly { readonly command: string }[];
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly description: string; readonly media: { readonly markdown: string } }[];
    }[];
  };
}
const { commands, walkthroughs } = (JSON.parse(read('package.json')) as Manifest).contributes;
const steps = walkthroughs.flatMap((walkthrough) => walkthrough.steps);
const pages = steps.map((step) => read(step.media.markdown));

/** Code blocks of all pages, by language. */
const blocks = pages.flatMap((page) =>
  [...page.matchAll(/```(\w*)\n([^`]*)```/g)].map((match) => ({ language: match[1]!, text: match[2]! })),
);

describe('walkthrough', () => {
  it('has five steps, each with a page', () => {
    expect(steps).toHaveLength(5);
    for (const page of pages) expect(page).toMatch(/^# /);
  });
  it('calls commands that exist', () => {
    const known = new Set([...commands.map((one) => one.command), 'vscode.openFolder']);
    const called = steps.flatMap((step) => [...step.description.matchAll(/\(command:([\w.]+)\)/g)].map((match) => match[1]!));
    expect(called.filter((command) => !known.has(command))).toEqual([]);
  });
  it('names actions by their titles', () => {
    const selection = { from: 0, to: 0 };
    const titles = [
      ...arrangeVersions.offers(stageOf('X:1\nK:D\nD|\n'), selection),
      ...ink.offers(stageOf('X:1\nK:D clef=bass\nD,|\n'), selection),
    ].map((offer) => offer.title);
    const named = pages.flatMap((page) => [...page.matchAll(/\*([A-Z][^*]+)\*/g)].map((match) => match[1]!));
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((title) => !titles.includes(title))).toEqual([]);
  });
  it('shows a tune and a configuration without errors', () => {
    const tune = blocks.find((block) => block.text.startsWith('X:'))!;
    expect(readBook(tune.text).tunes[0]!.tree.lines.flatMap(({ line }) => line.errors)).toEqual([]);
    const json = blocks.find((block) => block.language === 'json')!;
    expect(readConfigFile(json.text).problems).toEqual([]);
  });
});
