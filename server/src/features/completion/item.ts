// One offer at the caret, as plain data.
import type { Edit, Span } from '../../text/span.ts';

export interface CompletionItem {
  readonly label: string;
  readonly kind: 'field' | 'value' | 'decoration' | 'pin' | 'key';
  /** A few words beside the label. */
  readonly detail: string;
  /** More, shown on request; may be empty. */
  readonly explanation: string;
  /** What is replaced: on one line, the caret in it or at its border. */
  readonly span: Span;
  readonly insert: string;
  /** Changes elsewhere in the text that come with it. */
  readonly extra: readonly Edit[];
  /** What the typed text is compared with. */
  readonly filter: string;
}

/** Offers in the order they are to be shown. */
export type Completions = readonly CompletionItem[];
