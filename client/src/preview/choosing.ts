// Another place for a note: asks the server for the choices, and writes the one taken as a pin, in one step to undo.
import { Range, WorkspaceEdit, window, workspace } from 'vscode';
import type { FromPage, PlaceChoice } from '../../messages.ts';
import type { Line } from '../line.ts';

type Ask = Extract<FromPage, { kind: 'ask-places' }>;
type Choose = Extract<FromPage, { kind: 'choose' }>;

/** The places a note can be played at; none if the text has moved on. */
export async function placesFor({ uri, tune, note, head, revision }: Ask, line: Line): Promise<readonly PlaceChoice[]> {
  return (await line.ask('bullfiddle/places', { uri, tune, note, head, revision })) ?? [];
}

export async function choose({ uri, tune, note, head, revision, choice }: Choose, line: Line): Promise<void> {
  const answer = await line.ask('bullfiddle/choose', { uri, tune, note, head, revision, choice });
  const document = workspace.textDocuments.find((one) => one.uri.toString() === uri);
  if (answer === null || document === undefined || document.version !== answer.version) {
    void window.showInformationMessage('The text has changed since this sheet was drawn. Choose the place again.');
    return;
  }
  const edit = new WorkspaceEdit();
  for (const { from, to, insert } of answer.edits)
    edit.replace(document.uri, new Range(document.positionAt(from), document.positionAt(to)), insert);
  await workspace.applyEdit(edit);
}
