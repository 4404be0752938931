// What is known of a tune, stage by stage: each is made when asked for and kept with the tree it was made from.
import type { Book, HeaderTree, TuneTree } from '../abc/tree/tree.ts';
import { startSearch, type TableCache } from '../fingering/index.ts';
import type { Fingered, Search, Unplayable } from '../fingering/types.ts';
import { readScore } from '../score/index.ts';
import type { Score } from '../score/types.ts';
import { otherwise } from './freed.ts';
import { keptPlans } from './kept-plans.ts';
import { readPart } from './part.ts';
import { toPlan } from './plan.ts';
import { toTask } from './task.ts';
import type { BassPart, FileConfig, FingeredPart, Melody, PartStage, PlanStage, ScoreStage, TreeStage } from './types.ts';

const texts = new WeakMap<TuneTree, string>();
const scores = new WeakMap<TuneTree, { readonly header: HeaderTree; readonly score: Score }>();
const parts = new WeakMap<Score, { readonly config: FileConfig; readonly parts: readonly (BassPart | Melody)[] }>();
const slugs = new WeakMap<TuneTree, string | null>();

/** Tune `index` of a book with its text. */
export function treeStage(book: Book, index: number): TreeStage {
  const tree = book.tunes[index]!.tree;
  return { book, index, tree, text: textOf(tree) };
}

function textOf(tree: TuneTree): string {
  const known = texts.get(tree);
  if (known !== undefined) return known;
  const text = tree.lines.map((placed) => placed.line.text).join('');
  texts.set(tree, text);
  return text;
}

/** With its notes. */
export function scoreStage(book: Book, index: number): ScoreStage {
  const stage = treeStage(book, index);
  const known = scores.get(stage.tree);
  if (known !== undefined && known.header === book.header) return { ...stage, score: known.score };
  const score = readScore(book.header, stage.tree);
  scores.set(stage.tree, { header: book.header, score });
  return { ...stage, score };
}

/** With its voices read as bass parts or melodies, and the other versions of the tune in the book. */
export function partStage(book: Book, index: number, config: FileConfig): PartStage {
  const stage = scoreStage(book, index);
  return { ...stage, config, parts: partsOf(stage.score, config), siblings: siblingsOf(book, index) };
}

function partsOf(score: Score, config: FileConfig): readonly (BassPart | Melody)[] {
  const known = parts.get(score);
  if (known !== undefined && known.config === config) return known.parts;
  const made = score.voices.map((voice) => readPart(score, voice.id, config));
  parts.set(score, { config, parts: made });
  return made;
}

function siblingsOf(book: Book, index: number): readonly ScoreStage[] {
  const slug = slugOf(book.tunes[index]!.tree);
  if (slug === null) return [];
  return book.tunes.flatMap((tune, i) => (i !== index && slugOf(tune.tree) === slug ? [scoreStage(book, i)] : []));
}

/** The `tune=` name that a tune's header declares. */
function slugOf(tree: TuneTree): string | null {
  const known = slugs.get(tree);
  if (known !== undefined) return known;
  const slug =
    tree.lines
      .slice(0, tree.bodyStart)
      .flatMap(({ line }) => declaredSlug(line))
      .at(-1) ?? null;
  slugs.set(tree, slug);
  return slug;
}

function declaredSlug(line: TuneTree['lines'][number]['line']): readonly string[] {
  if (line.kind !== 'field' && line.kind !== 'directive') return [];
  const value = line.field.value;
  if (value.kind !== 'instruction' || value.name !== 'bullfiddle') return [];
  return value.keyed.flatMap((keyed) => (keyed.key === 'tune' && keyed.value !== '' ? [keyed.value] : []));
}

/** With its bass parts fingered; searches to the end. */
export function planStage(book: Book, index: number, config: FileConfig, tables: TableCache): PlanStage {
  const started = startPlans(partStage(book, index, config), tables);
  for (;;) {
    const done = started.step(Number.MAX_SAFE_INTEGER);
    if (done !== null) return done;
  }
}

/** Searches under way for all bass parts of a tune. */
export interface PlansUnderWay {
  /** Works for about `work` units; the stage when all parts are fingered, else null. */
  step(work: number): PlanStage | null;
}

/** Starts fingering a tune's bass parts, to be worked on in slices. */
export function startPlans(stage: PartStage, tables: TableCache): PlansUnderWay {
  const waiting = stage.parts.filter((part) => part.kind === 'bass');
  const fingered: FingeredPart[] = [];
  let search: { readonly part: BassPart; readonly task: FingeredPart['task']; readonly search: Search } | null = null;
  return {
    step(work) {
      for (let part = waiting[fingered.length]; part !== undefined; part = waiting[fingered.length]) {
        const known = keptPlans(tables).of(part);
        if (known === undefined && search?.part !== part) {
          const task = toTask(part);
          search = { part, task, search: startSearch(task, tables) };
        }
        const made = known ?? finish(search!, work, tables);
        if (made === null) return null;
        keptPlans(tables).keep(made);
        fingered.push(made);
        if (known === undefined && fingered.length < waiting.length) return null;
      }
      return { ...stage, fingered };
    },
  };
}

function finish(
  under: { readonly part: BassPart; readonly task: FingeredPart['task']; readonly search: Search },
  work: number,
  tables: TableCache,
): FingeredPart | null {
  const result: { readonly kind: 'running' } | Fingered | Unplayable = under.search.step(work);
  if (result.kind === 'running') return null;
  return {
    part: under.part,
    task: under.task,
    result,
    plan: toPlan(under.part, result),
    ...otherwise(under.part, tables),
  };
}
