// Makes tune text that was copied from a page plain: quotes, spaces and line ends of the selection, or of the whole file.
import { Range, window } from 'vscode';
import type { CommandTools } from './index.ts';
import { tuneEditor } from './wish.ts';

export async function cleanPasted({ line }: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (!editor) return;
  const { document, selection } = editor;
  const { version } = document;
  const whole = new Range(document.positionAt(0), document.positionAt(document.getText().length));
  // Whole lines: what a line begins with decides how it is cleaned.
  const range = selection.isEmpty
    ? whole
    : new Range(selection.start.line, 0, selection.end.line, document.lineAt(selection.end.line).text.length);
  const text = document.getText(range);
  const clean = await line.ask('bullfiddle/clean', { text });
  if (document.version !== version) return;
  if (clean === text) void window.showInformationMessage('There is nothing to clean: quotes, spaces and line ends are plain already.');
  else await editor.edit((edit) => edit.replace(range, clean));
}
