// What a check is: a stable code, the stage it needs, and a pure function to findings.
import type { PartStage, PlanStage, ScoreStage, TreeStage } from '../arrangement/types.ts';
import type { Edit, Span } from '../text/span.ts';

export type Need = 'tree' | 'score' | 'part' | 'plan';
export interface StageOf {
  readonly tree: TreeStage;
  readonly score: ScoreStage;
  readonly part: PartStage;
  readonly plan: PlanStage;
}
export type Severity = 'error' | 'warning' | 'info';

export interface Fix {
  readonly title: string;
  /** Relative to the tune. */
  readonly edits: readonly Edit[];
}

/** A place with something to say. Spans are relative to the tune. */
export interface Finding extends Span {
  readonly code: string;
  readonly severity: Severity;
  /** What is the matter for the player, with figures, and what to do. */
  readonly message: string;
  readonly related: readonly (Span & { readonly message: string })[];
  readonly fixes: readonly Fix[];
}

export interface Check<N extends Need = Need> {
  /** Codes it may give; normally one. */
  readonly codes: readonly string[];
  readonly needs: N;
  readonly severity: Severity;
  find(stage: StageOf[N]): readonly Finding[];
}

export type AnyCheck = { readonly [N in Need]: Check<N> }[Need];
