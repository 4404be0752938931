// Edits in the order in which `applyEdits` wants them.
import type { Edit } from '../../text/span.ts';

export const inOrder = (edits: readonly Edit[]): readonly Edit[] =>
  [...edits].sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
