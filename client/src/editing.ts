// Edits that the server gives, put into a document in one step to undo.
import { Range, type TextDocument, WorkspaceEdit, workspace } from 'vscode';
import type { DocumentEdits } from './line.ts';

/** False if the text has changed since, or the editor refuses. */
export async function applied(document: TextDocument, { version, edits }: DocumentEdits): Promise<boolean> {
  if (document.version !== version) return false;
  const edit = new WorkspaceEdit();
  for (const { from, to, insert } of edits)
    edit.replace(document.uri, new Range(document.positionAt(from), document.positionAt(to)), insert);
  return workspace.applyEdit(edit);
}
