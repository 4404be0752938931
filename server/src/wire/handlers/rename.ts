// Renaming a voice, part, user symbol or tune in all of the book.
import { LSPErrorCodes, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { placeOf, rangeOf, textEdit } from '../convert.ts';
import type { Desktop } from './index.ts';
import { treeOf } from './stages.ts';

type Answer = WorkspaceEdit | ResponseError<void> | null;

export function rename({ connection, guard, documents }: Desktop): void {
  connection.onPrepareRename(({ textDocument, position }, token) =>
    guard.answer('rename', null, token, () => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const { tune, offset } = placeOf(document, position);
      const target = tune < 0 ? null : features.renameTarget.answer(treeOf(document, tune), offset, defaultFeatureSettings);
      return target && rangeOf(document, target.tune, target);
    }),
  );
  connection.onRenameRequest(({ textDocument: { uri }, position, newName }, token) =>
    guard.answer<Answer>('rename', null, token, () => {
      const document = documents.get(uri);
      if (!document) return null;
      const { tune, offset } = placeOf(document, position);
      if (tune < 0) return null;
      const renaming = features.rename.answer(treeOf(document, tune), { at: offset, name: newName }, defaultFeatureSettings);
      // A refusal is told to the player in its own words.
      if (renaming.kind === 'refused') return new ResponseError<void>(LSPErrorCodes.RequestFailed, renaming.message);
      const edits = renaming.byTune.flatMap((one) => one.edits.map((edit) => textEdit(document, one.tune, edit)));
      return { changes: { [uri]: edits } };
    }),
  );
}
