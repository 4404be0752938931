// Formatting of a document or a stretch of it: spacing by beats, voices lined up, the music as it was.
import type { Range, TextEdit } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { textEdit, tuneStart } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { scoreOf, tunesOf } from './stages.ts';

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
}

function editsOf(document: OpenDocument, tune: number, range: Range | null): TextEdit[] {
  const stage = scoreOf(document, tune);
  const at = tuneStart(document, tune);
  const asked = range && { from: document.lines.offsetAt(range.start) - at, to: document.lines.offsetAt(range.end) - at };
  if (asked && (asked.to < 0 || asked.from > stage.tree.length)) return [];
  const within = asked && { from: Math.max(0, asked.from), to: Math.min(stage.tree.length, asked.to) };
  return features.format.answer(stage, within, defaultFeatureSettings).map((edit) => textEdit(document, tune, edit));
}
