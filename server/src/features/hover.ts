// What is shown beside the pointer. Several features answer, each as early as it can; the answers stand under each other.
import type { HandPlace } from '../fingering/types.ts';
import type { Span } from '../text/span.ts';

export interface Hover extends Span {
  /** Paragraphs of Markdown; text of the tune is never among them. */
  readonly text: readonly string[];
  /** What a picture of the fingerboard would show, if there is anything to show. */
  readonly board?: {
    /** Names of the strings, highest first. */
    readonly strings: readonly string[];
    readonly places: readonly { readonly string: string; readonly stop: number; readonly finger: string; readonly mm: number }[];
    readonly hand: HandPlace | null;
    readonly mensur: number;
  };
}
