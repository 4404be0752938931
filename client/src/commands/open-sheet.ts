// Opens the sheet beside the tune text.
import { window } from 'vscode';
import { isTuneText } from '../preview/sheets.ts';
import type { CommandTools } from './index.ts';

export function openSheet({ sheets }: CommandTools): void {
  const editor = window.activeTextEditor ?? window.visibleTextEditors.find((one) => isTuneText(one.document));
  if (editor && isTuneText(editor.document)) sheets.open(editor);
  else void window.showInformationMessage('Open a tune book (.abc) first: the sheet shows the tune at its caret.');
}
