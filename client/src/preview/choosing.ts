// Another place for a note: asks the server for the choices, and writes the one taken as a pin, in one step to undo.
import { window, workspace } from 'vscode';
import type { FromPage, PlaceChoice } from '../../messages.ts';
import { applied } from '../editing.ts';
import type { Line } from '../line.ts';

type Ask = Extract<FromPage, { kind: 'ask-places' }>;
type Choose = Extract<FromPage, { kind: 'choose' }>;

/** The places a note can be played at; null if the text has moved on, so that nothing can be said of it. */
export const placesFor = ({ uri, tune, note, head, revision }: Ask, line: Line): Promise<readonly PlaceChoice[] | null> =>
  line.ask('bullfiddle/places', { uri, tune, note, head, revision });

export async function choose({ uri, tune, note, head, revision, choice }: Choose, line: Line): Promise<void> {
  const answer = await line.ask('bullfiddle/choose', { uri, tune, note, head, revision, choice });
  const document = workspace.textDocuments.find((one) => one.uri.toString() === uri);
  if (answer === null || document === undefined || !(await applied(document, answer)))
    void window.showInformationMessage('The text has changed since this sheet was drawn. Choose the place again.');
}
