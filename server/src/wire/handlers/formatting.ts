// Formatting of a document or a stretch of it: spacing by beats, voices lined up, the music as it was.
import type { Range, TextEdit } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import type { Span } from '../../text/span.ts';
import { placeOf, textEdit, tuneStart } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { scoreOf, tunesOf, viewOf } from './stages.ts';

export function formatting({ connection, guard, documents }: Desktop): void {
  connection.onDocumentFormatting(({ textDocument }, token) =>
    guard.answer<TextEdit[]>('format', [], token, () => {
      const document = documents.get(textDocument.uri);
      return document ? tunesOf(document).flatMap((tune) => editsOf(document, tune, null)) : [];
    }),
  );
  connection.onDocumentRangeFormatting(({ textDocument, range }, token) =>
    guard.answer<TextEdit[]>('format', [], token, () => {
      const document = documents.get(textDocument.uri);
      return document ? tunesOf(document).flatMap((tune) => editsOf(document, tune, range)) : [];
    }),
  );
  connection.onDocumentOnTypeFormatting(({ textDocument, position }, token) =>
    guard.answer<TextEdit[]>('format', [], token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      const { tune, offset } = placeOf(document, position);
      const bar = tune < 0 ? null : features.closedBar.answer(viewOf(document, tune), offset, defaultFeatureSettings);
      return bar === null ? [] : spanEdits(document, tune, bar);
    }),
  );
}

function editsOf(document: OpenDocument, tune: number, range: Range | null): TextEdit[] {
  const at = tuneStart(document, tune);
  const { length } = scoreOf(document, tune).tree;
  const asked = range && { from: document.lines.offsetAt(range.start) - at, to: document.lines.offsetAt(range.end) - at };
  if (asked && (asked.to < 0 || asked.from > length)) return [];
  const within = asked && { from: Math.max(0, asked.from), to: Math.min(length, asked.to) };
  return spanEdits(document, tune, within);
}

const spanEdits = (document: OpenDocument, tune: number, within: Span | null): TextEdit[] =>
  features.format.answer(scoreOf(document, tune), within, defaultFeatureSettings).map((edit) => textEdit(document, tune, edit));
