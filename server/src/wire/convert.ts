// Between the core's offsets (relative to a tune) and the protocol's lines and characters (of the document).
import type { Diagnostic, Position, Range, TextEdit } from 'vscode-languageserver';
import { DiagnosticSeverity } from 'vscode-languageserver';
import type { Finding, Severity } from '../checks/check.ts';
import type { Edit, Offset, Span } from '../text/span.ts';
import type { OpenDocument } from './documents.ts';

/** A place in a book: which tune, and how far into it. `tune` is -1 in front of the first. */
export interface TunePlace {
  readonly tune: number;
  readonly offset: Offset;
}

/** Where tune `index` begins in the document; 0 for the text in front of the first. */
export const tuneStart = (document: OpenDocument, index: number): Offset => document.book.tunes[index]?.at ?? 0;

/** The tune that holds this offset of the document. */
export function tuneAt(document: OpenDocument, offset: Offset): TunePlace {
  const { tunes } = document.book;
  let low = 0;
  let high = tunes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tunes[middle]!.at <= offset) low = middle + 1;
    else high = middle;
  }
  const tune = low - 1;
  return { tune, offset: offset - tuneStart(document, tune) };
}

export const placeOf = (document: OpenDocument, position: Position): TunePlace => tuneAt(document, document.lines.offsetAt(position));

export function rangeOf(document: OpenDocument, tune: number, span: Span): Range {
  const at = tuneStart(document, tune);
  return { start: document.lines.positionAt(at + span.from), end: document.lines.positionAt(at + span.to) };
}

export const textEdit = (document: OpenDocument, tune: number, edit: Edit): TextEdit => ({
  range: rangeOf(document, tune, edit.span),
  newText: edit.insert,
});

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

export function diagnosticOf(document: OpenDocument, tune: number, finding: Finding): Diagnostic {
  const related = finding.related.map((other) => ({
    location: { uri: document.uri, range: rangeOf(document, tune, other) },
    message: other.message,
  }));
  return {
    range: rangeOf(document, tune, finding),
    severity: severities[finding.severity],
    code: finding.code,
    source: 'bullfiddle',
    message: finding.message,
    ...(related.length > 0 ? { relatedInformation: related } : {}),
  };
}
