// What is shown beside the pointer. Several features answer, each as early as it can; the answers stand under each other.
import type { Plan, PlanNote } from '../arrangement/types.ts';
import type { Span } from '../text/span.ts';

export interface Hover extends Span {
  /** Paragraphs of Markdown; text of the tune is never among them. */
  readonly text: readonly string[];
  /** The note in its plan, for a picture of the fingerboard. */
  readonly played?: { readonly plan: Plan; readonly note: PlanNote };
}
