// Pairs of random edits in different bars of the demo book, merged: the result must read as both.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Unit, unitsOf } from '../../server/src/cli/bar-units.ts';
import { mergeTexts } from '../../server/src/cli/merge-units.ts';
import type { Random } from './random.ts';

const demo = join(import.meta.dirname, '../../media/demo');

export const demoBooks: readonly string[] = readdirSync(demo)
  .filter((name) => name.endsWith('.abc'))
  .map((name) => readFileSync(join(demo, name), 'utf8'));

const bars = new Map(demoBooks.map((text) => [text, unitsOf(text).filter(({ kind }) => kind === 'bar')]));

const before = (text: string, { from }: Unit, insert: string): string => text.slice(0, from) + insert + text.slice(from);

/** Edits two bars of a demo book, one a side, and merges. What went wrong, or null. */
export function faultOfMerge(random: Random): string | null {
  const base = random.pick(demoBooks);
  const own = bars.get(base)!;
  const first = random.below(own.length - 1);
  const second = first + 1 + random.below(own.length - 1 - first);
  const edits = [
    [own[first]!, 'C,4'],
    [own[second]!, 'E,4'],
  ] as const;
  const [left, right] = edits.map(([bar, insert]) => before(base, bar, insert)) as [string, string];
  const sides = random.below(2) === 0 ? ([left, right] as const) : ([right, left] as const);
  const { text, conflicts } = mergeTexts(base, ...sides);
  if (conflicts > 0) return `a conflict between bars at ${edits[0][0].from} and ${edits[1][0].from}`;
  return text === before(right, ...edits[0]) ? null : `not both edits at ${edits[0][0].from} and ${edits[1][0].from}`;
}
