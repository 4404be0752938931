// Hints in the text: the sum of an unfinished bar, and where it is asked for the place of each note.
import { type InlayHint, InlayHintKind } from 'vscode-languageserver';
import { features } from '../../features/index.ts';
import { tuneStart } from '../convert.ts';
import type { Desktop } from './index.ts';
import { planOf, scoreOf, tunesOf } from './stages.ts';

export function hints(desktop: Desktop): void {
  const { connection, guard, documents, settings } = desktop;
  connection.languages.inlayHint.on(({ textDocument, range }, token) =>
    guard.answer<InlayHint[]>('hints', [], token, async () => {
      const document = documents.get(textDocument.uri);
      if (!document) return [];
      const wanted = settings.features(document.uri);
      const seen = { from: document.lines.offsetAt(range.start), to: document.lines.offsetAt(range.end) };
      const found: InlayHint[] = [];
      for (const tune of tunesOf(document)) {
        const at = tuneStart(document, tune);
        if (at > seen.to || at + document.book.tunes[tune]!.tree.length < seen.from) continue;
        const bars = features.barHints.answer(scoreOf(document, tune), null, wanted);
        const plan = wanted.hints.places === 'off' ? null : await planOf(desktop, document, tune);
        const places = plan ? features.placeHints.answer(plan, null, wanted) : [];
        for (const hint of [...bars, ...places]) {
          const position = document.lines.positionAt(at + hint.at);
          const pads = hint.side === 'before' ? { paddingRight: true } : { paddingLeft: true };
          found.push({ position, label: hint.text, kind: InlayHintKind.Parameter, ...pads });
        }
      }
      return found;
    }),
  );
}
