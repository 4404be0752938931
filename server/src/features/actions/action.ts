// What an action is: cheap offers for a selection, and the change an offer makes when it is taken.
import type { ArrangeTools } from '../../arrangement/index.ts';
import type { Need, StageOf } from '../../checks/check.ts';
import type { Edit, Span } from '../../text/span.ts';

export interface Offer {
  /** Which of the action's changes; stable, for key bindings. */
  readonly variant: string;
  readonly title: string;
}

/** `edits` works on the stage the offer was made for; spans are relative to the tune. No edits: there is nothing left to do. */
export interface Action<N extends Need = Need> {
  readonly id: string;
  readonly needs: N;
  offers(stage: StageOf[N], selection: Span): readonly Offer[];
  edits(stage: StageOf[N], selection: Span, variant: string, tools: ArrangeTools): readonly Edit[];
}
