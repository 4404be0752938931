// Two states of a tune file: which tunes were added, removed or changed, and how.
import { readBook } from '../abc/index.ts';
import type { Book } from '../abc/tree/tree.ts';
import { type Change, compareTunes, planStage } from '../arrangement/index.ts';
import type { FileConfig, PlanStage } from '../arrangement/types.ts';
import type { TableCache } from '../fingering/index.ts';

/** One tune that is in either text. */
export interface Difference {
  readonly title: string;
  readonly number: number | null;
  readonly change: 'added' | 'removed' | 'changed';
  readonly changes: readonly Change[];
  readonly old: { readonly at: number; readonly stage: PlanStage } | null;
  readonly next: { readonly at: number; readonly stage: PlanStage } | null;
}

/** Tunes are matched by number and title, then by title alone; what is left is added or removed. */
export function differences(was: string, is: string, config: FileConfig, tables: TableCache): readonly Difference[] {
  const stages = (book: Book) => book.tunes.map((tune, i) => ({ at: tune.at, stage: planStage(book, i, config, tables) }));
  const old = stages(readBook(was));
  const next = stages(readBook(is));
  const taken = new Set<(typeof old)[number]>();
  const found = next.map((one): Difference => {
    const free = old.filter((other) => !taken.has(other));
    const titled = free.filter((other) => other.stage.score.title === one.stage.score.title);
    const match = titled.find((other) => other.stage.score.number === one.stage.score.number) ?? titled[0] ?? null;
    if (match !== null) taken.add(match);
    const { title, number } = one.stage.score;
    const changes = match === null ? [] : compareTunes(match.stage, one.stage);
    return { title, number, change: match === null ? 'added' : 'changed', changes, old: match, next: one };
  });
  const gone = old
    .filter((other) => !taken.has(other))
    .map((other): Difference => {
      const { title, number } = other.stage.score;
      return { title, number, change: 'removed', changes: [], old: other, next: null };
    });
  return [...found, ...gone].filter((one) => one.change !== 'changed' || one.changes.length > 0);
}
