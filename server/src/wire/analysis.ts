// Works through a tune in small pieces: findings that need no fingering, then the fingering, then the rest of the findings.
import type { TuneTree } from '../abc/tree/tree.ts';
import { type PlansUnderWay, partStage, startPlans } from '../arrangement/index.ts';
import type { FileConfig, PartStage, PlanStage } from '../arrangement/types.ts';
import type { Finding } from '../checks/check.ts';
import { findingsOf } from '../checks/index.ts';
import type { TableCache } from '../fingering/index.ts';
import type { OpenDocument } from './documents.ts';

/** What is known of one tune. */
export interface TuneState {
  readonly part: PartStage;
  /** null while the search is under way, where it was not asked for, and for a tune too long to be fingered unasked. */
  readonly plan: PlanStage | null;
  readonly findings: readonly Finding[];
  /** Whether nothing more will come. */
  readonly settled: boolean;
}

/** `findings` may come without a plan if they are known already; `any-plan` is asked for by the player, however long the tune. */
export type Wanted = 'findings' | 'plan' | 'any-plan';

export interface Analysis {
  /** The last findings of this very text, if there are any; settings and other versions may have changed since. */
  last(tree: TuneTree): readonly Finding[] | null;
  /** Works on one tune; yields between pieces, and gives each new state to `tell`. */
  work(document: OpenDocument, config: FileConfig, tune: number, wanted: Wanted, tell: (state: TuneState) => void): Generator<void, void>;
}

/** A tune of more notes is fingered on demand only. */
export const usualNotes = 20_000;
/** Units of work of a search between two looks at the clock: well under a millisecond. */
const piece = 2_000;

interface Known {
  /** What the findings rest on beside the tune's own tree. */
  readonly rests: readonly unknown[];
  readonly findings: readonly Finding[];
}

export function makeAnalysis(tables: TableCache): Analysis {
  const kept = new WeakMap<TuneTree, Known>();
  const knownOf = (part: PartStage): readonly Finding[] | null => {
    const old = kept.get(part.tree);
    return old && same(old.rests, restsOf(part)) ? old.findings : null;
  };
  return {
    last: (tree) => kept.get(tree)?.findings ?? null,
    *work(document, config, tune, wanted, tell) {
      const part = partStage(document.book, tune, config);
      const old = knownOf(part);
      if (old && wanted === 'findings') return tell({ part, plan: null, findings: old, settled: true });
      const long = wanted !== 'any-plan' && notesIn(part) > usualNotes;
      const settle = (plan: PlanStage | null, findings: readonly Finding[]): void => {
        kept.set(part.tree, { rests: restsOf(part), findings });
        tell({ part, plan, findings, settled: true });
      };
      const early = old ?? findingsOf(part, 'part');
      if (long) return settle(null, early);
      tell({ part, plan: null, findings: early, settled: false });
      yield;
      const plan = yield* searched(startPlans(part, tables));
      settle(plan, old ?? findingsOf(plan, 'plan'));
    },
  };
}

function* searched(search: PlansUnderWay): Generator<void, PlanStage> {
  for (;;) {
    const plan = search.step(piece);
    if (plan) return plan;
    yield;
  }
}

const notesIn = (part: PartStage): number => part.score.voices.reduce((sum, voice) => sum + voice.notes.length, 0);

/** The file header, the settings, and the tune's other versions. */
const restsOf = (part: PartStage): readonly unknown[] => [part.book.header, part.config, ...part.siblings.map((one) => one.tree)];

const same = (a: readonly unknown[], b: readonly unknown[]): boolean => a.length === b.length && a.every((one, i) => one === b[i]);
