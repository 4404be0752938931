// Mends offered at a place: the fixes that findings carry, nearest finding first.
import type { Finding, Fix, Severity } from '../checks/check.ts';
import type { Span } from '../text/span.ts';

export interface QuickFix extends Fix {
  readonly finding: Finding;
  /** The only fix of its finding: may be taken without a choice. */
  readonly preferred: boolean;
}

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, info: 2 };

/** The fixes of all findings that touch the span, errors before warnings, short findings before long ones. */
export function quickFixes(findings: readonly Finding[], span: Span): readonly QuickFix[] {
  const near = findings.filter((finding) => finding.from <= span.to && span.from <= finding.to);
  const ordered = [...near].sort((a, b) => rank[a.severity] - rank[b.severity] || a.to - a.from - (b.to - b.from));
  return ordered.flatMap((finding) => finding.fixes.map((fix) => ({ ...fix, finding, preferred: finding.fixes.length === 1 })));
}
