// Writes a handout of the tune at the caret, or of the whole book, to a file that the player names.
import { env, ProgressLocation, QuickPickItemKind, type Uri, window, workspace } from 'vscode';
import type { Exported, HandoutFormat } from '../line.ts';
import type { CommandTools } from './index.ts';
import { tuneEditor } from './wish.ts';

interface Choice {
  readonly label: string;
  readonly format: HandoutFormat;
  readonly ending: string;
  readonly of: 'tune' | 'book';
}

const forTune = (label: string, format: HandoutFormat, ending: string): Choice => ({ label, format, ending, of: 'tune' });
const forBook = (label: string, format: HandoutFormat, ending: string): Choice => ({ label, format, ending, of: 'book' });

const choices = [
  { label: 'This tune', kind: QuickPickItemKind.Separator },
  forTune('PDF: pages to print', 'pdf', 'pdf'),
  forTune('HTML: pages with a player', 'html', 'html'),
  forTune('Text tab', 'text', 'txt'),
  forTune('WAV: sound', 'wav', 'wav'),
  forTune('MIDI', 'midi', 'mid'),
  forTune('MusicXML', 'musicxml', 'musicxml'),
  { label: 'The whole book', kind: QuickPickItemKind.Separator },
  forBook('PDF of all tunes', 'pdf', 'pdf'),
  forBook('HTML of all tunes', 'html', 'html'),
  forBook('Text tab of all tunes', 'text', 'txt'),
];

export async function exportHandout({ line }: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (!editor) return;
  const { document, selection } = editor;
  const choice = await window.showQuickPick(choices, { title: 'Export Handout', placeHolder: 'What to make' });
  if (choice === undefined || !('format' in choice)) return;
  const target = await window.showSaveDialog({
    defaultUri: document.uri.with({ path: document.uri.path.replace(/(\.abc)?$/i, `.${choice.ending}`) }),
    filters: { [choice.format.toUpperCase()]: [choice.ending] },
    title: 'Export Handout',
  });
  if (target === undefined) return;
  const ask = {
    uri: document.uri.toString(),
    format: choice.format,
    at: choice.of === 'tune' ? document.offsetAt(selection.active) : null,
    date: new Date().toISOString().slice(0, 10),
  };
  const progress = { location: ProgressLocation.Notification, title: `Making ${name(target)}` };
  const made = await window.withProgress(progress, () => line.ask('bullfiddle/export', ask));
  await written(made, target);
}

async function written({ base64, words }: Exported, target: Uri): Promise<void> {
  if (base64 === null) {
    void window.showErrorMessage(words.join(' '));
    return;
  }
  try {
    await workspace.fs.writeFile(
      target,
      Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)),
    );
  } catch (problem) {
    void window.showErrorMessage(`${name(target)} could not be written: ${problem instanceof Error ? problem.message : String(problem)}`);
    return;
  }
  const open = 'Open';
  const told = words.length === 0 ? window.showInformationMessage : window.showWarningMessage;
  if ((await told([`${name(target)} is written.`, ...words].join(' '), open)) === open) await env.openExternal(target);
}

const name = (uri: Uri): string => uri.path.slice(uri.path.lastIndexOf('/') + 1);
