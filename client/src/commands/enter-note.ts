// Enters a note by string and stop, the string picked from those of the part at the caret.
import { Selection, window } from 'vscode';
import type { CommandTools } from './index.ts';
import { grant, tuneEditor } from './wish.ts';

export async function enterNote(tools: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (!editor) return;
  const { document, selection } = editor;
  const strings = await tools.line.ask('bullfiddle/strings', { uri: document.uri.toString(), offset: document.offsetAt(selection.start) });
  if (strings.length === 0) {
    void window.showInformationMessage('Notes are entered by string and stop in bass parts only: there is none at the caret.');
    return;
  }
  const names = strings.join(', ');
  const read = (text: string): { readonly string: string; readonly stop: number } | null => {
    const match = /^\s*([A-Ga-g])\s*(\d{1,2})\s*$/.exec(text);
    const string = strings.find((one) => one.toUpperCase() === match?.[1]?.toUpperCase());
    return match === null || string === undefined ? null : { string, stop: Number(match[2]) };
  };
  const answer = await window.showInputBox({
    title: 'Enter a Note by String and Stop',
    prompt: `String (${names}) and stop in semitones above the open string: D4, or G0 for the open string.`,
    validateInput: (text) => (read(text) === null ? `Write a string of ${names} and a number, as D4.` : null),
  });
  const note = answer === undefined ? null : read(answer);
  if (note === null) return;
  await grant(tools, editor, { kind: 'enter', ...note });
  // What replaced a selection is left selected by the editor: the next note goes behind it.
  editor.selection = new Selection(editor.selection.end, editor.selection.end);
}
