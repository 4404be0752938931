// Making findings: the short way to write one, and fixes that take text out.
import type { Edit, Span } from '../../text/span.ts';
import type { Finding, Fix, Severity } from '../check.ts';

interface Extras {
  readonly related?: Finding['related'];
  readonly fixes?: readonly Fix[];
}

/** A finding over `span` (relative to the tune). */
export const finding = (code: string, severity: Severity, span: Span, message: string, extras: Extras = {}): Finding => ({
  code,
  severity,
  from: span.from,
  to: span.to,
  message,
  related: extras.related ?? [],
  fixes: extras.fixes ?? [],
});

/** A fix that removes stretches of text; the edits come out sorted. */
export const removing = (title: string, spans: readonly Span[]): Fix => ({
  title,
  edits: inOrder(spans.map((span) => ({ span: { from: span.from, to: span.to }, insert: '' }))),
});

/** Edits sorted by place, as `applyEdits` wants them. */
export const inOrder = (edits: readonly Edit[]): readonly Edit[] => [...edits].sort((a, b) => a.span.from - b.span.from);

/** The span from the start of the first to the end of the last of spans that follow each other in the text. */
export const over = (spans: readonly Span[]): Span => ({
  from: Math.min(...spans.map((s) => s.from)),
  to: Math.max(...spans.map((s) => s.to)),
});
