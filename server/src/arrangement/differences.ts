// Two states of a book: which tunes were added, removed or changed, and how.
import type { Book } from '../abc/tree/tree.ts';
import type { TableCache } from '../fingering/index.ts';
import { alignTunes, type BarPair, type Change, compareTunes } from './compare.ts';
import { planStage, scoreStage } from './stages.ts';
import type { FileConfig, PlanStage } from './types.ts';

/** One tune that is in either book. */
export interface Difference {
  readonly title: string;
  readonly number: number | null;
  readonly change: 'added' | 'removed' | 'changed';
  readonly changes: readonly Change[];
  readonly old: TuneState | null;
  readonly next: TuneState | null;
}

interface TuneState {
  /** Where the tune begins in its book. */
  readonly at: number;
  readonly stage: PlanStage;
}

/**
 * The tunes that differ, those of the new book first, removed ones last; null for one that is the same, so that a caller may do other work between tunes.
 * Tunes are matched by number and title, then by title alone; what is left is added or removed.
 */
export function* differences(was: Book, is: Book, config: FileConfig, tables: TableCache): Generator<Difference | null> {
  const state = (book: Book, index: number): TuneState => ({ at: book.tunes[index]!.at, stage: planStage(book, index, config, tables) });
  const old = namesOf(was);
  const taken = new Set<number>();
  for (const [index, { title, number }] of namesOf(is).entries()) {
    const titled = old.flatMap((other, i) => (!taken.has(i) && other.title === title ? [i] : []));
    const match = titled.find((i) => old[i]!.number === number) ?? titled[0];
    if (match !== undefined) taken.add(match);
    yield match === undefined
      ? { title, number, change: 'added', changes: [], old: null, next: state(is, index) }
      : changed(state(was, match), state(is, index));
  }
  for (const [index, { title, number }] of old.entries())
    if (!taken.has(index)) yield { title, number, change: 'removed', changes: [], old: state(was, index), next: null };
}

const namesOf = (book: Book) => book.tunes.map((_, i) => scoreStage(book, i).score);

function changed(old: TuneState, next: TuneState): Difference | null {
  const { title, number } = next.stage.score;
  const changes = compareTunes(old.stage, next.stage);
  return changes.length === 0 ? null : { title, number, change: 'changed', changes, old, next };
}

/** A difference as a page tells it: words on the tune as a whole, and its bars side by side where it is in both books. */
export function toldByBar({ change, changes, old, next }: Difference): {
  readonly words: readonly string[];
  readonly bars: readonly BarPair[];
} {
  if (old === null || next === null) return { words: [`Tune ${change}.`], bars: [] };
  return { words: changes.filter(({ bar }) => bar === null).map(({ words }) => words), bars: alignTunes(old.stage, next.stage) };
}
