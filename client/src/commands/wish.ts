// Changes of the text by command: the server works them out for the selection, and says what the player should know.
import { type TextEditor, window } from 'vscode';
import { applied } from '../editing.ts';
import type { Wish } from '../line.ts';
import { isTuneText } from '../preview/sheets.ts';
import type { CommandTools } from './index.ts';

/** The active editor of tune text; if there is none, says so. */
export function tuneEditor(): TextEditor | null {
  const editor = window.activeTextEditor;
  if (editor && isTuneText(editor.document)) return editor;
  void window.showInformationMessage('Open a tune book (.abc) and put the caret into a tune first.');
  return null;
}

/** A command that grants one wish. */
export const granting =
  (wish: Wish) =>
  async (tools: CommandTools): Promise<void> => {
    const editor = tuneEditor();
    if (editor) await grant(tools, editor, wish);
  };

export async function grant({ line }: CommandTools, { document, selection }: TextEditor, wish: Wish): Promise<void> {
  const answer = await line.ask('bullfiddle/change', {
    uri: document.uri.toString(),
    version: document.version,
    from: document.offsetAt(selection.start),
    to: document.offsetAt(selection.end),
    wish,
  });
  if (answer === null || (answer.edits.length > 0 && !(await applied(document, answer)))) {
    void window.showInformationMessage('The text has changed meanwhile. Run the command again.');
    return;
  }
  if (answer.words.length === 0) return;
  for (const words of answer.words) line.log(words);
  void window.showInformationMessage(shortened(answer.words));
}

/** Most sentences in a message; the log has all. */
const mostWords = 3;

const shortened = (words: readonly string[]): string =>
  words.length > mostWords ? `${words.slice(0, mostWords).join(' ')} And ${words.length - mostWords} more in the log.` : words.join(' ');
