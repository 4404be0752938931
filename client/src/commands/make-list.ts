// Makes the lesson packet or the booklet that a list of tunes (a JSON file) describes, in a folder that the player names.
import { env, ProgressLocation, Uri, window } from 'vscode';
import type { Program, Ran } from '../program.ts';
import type { CommandTools } from './index.ts';

type Kind = 'packet' | 'booklet';

interface Order {
  readonly kind: Kind;
  readonly list: Uri;
  readonly folder: Uri;
}

/** A command that makes one kind of list. */
export const making =
  (kind: Kind) =>
  async ({ program, line }: CommandTools): Promise<void> => {
    if (program === null) {
      void window.showInformationMessage('In a browser no packets and booklets can be made: open the folder in a desktop editor.');
      return;
    }
    const list = await listOf(kind);
    const folder = list === null ? null : await folderFor(kind, list);
    if (list === null || folder === null) return;
    const written: string[] = [];
    const ran = await run(program, { kind, list, folder }, written);
    if (ran.said !== '') line.log(ran.said);
    await tell({ kind, list, folder }, ran, written);
  };

/** The list in the active editor, saved; else one that the player picks. */
async function listOf(kind: Kind): Promise<Uri | null> {
  const document = window.activeTextEditor?.document;
  const isList = document !== undefined && document.uri.scheme === 'file' && document.fileName.toLowerCase().endsWith('.json');
  if (isList && (await document.save())) return document.uri;
  const [picked] =
    (await window.showOpenDialog({ title: `The List of the ${title(kind)}`, openLabel: 'Use This List', filters: { JSON: ['json'] } })) ??
    [];
  return picked ?? null;
}

async function folderFor(kind: Kind, list: Uri): Promise<Uri | null> {
  const [picked] =
    (await window.showOpenDialog({
      title: `Folder for the ${title(kind)}`,
      openLabel: 'Write Here',
      canSelectFiles: false,
      canSelectFolders: true,
      defaultUri: folderOf(list),
    })) ?? [];
  return picked ?? null;
}

function run(program: Program, { kind, list, folder }: Order, written: string[]): Thenable<Ran> {
  const today = new Date().toISOString().slice(0, 10);
  const options = { location: ProgressLocation.Notification, title: `Making the ${kind} of ${name(list)}`, cancellable: true };
  return window.withProgress(options, (progress, token) =>
    program([kind, list.fsPath, '--out', folder.fsPath, '--date', today], folderOf(list).fsPath, {
      written(path) {
        written.push(path);
        progress.report({ message: name(Uri.file(path)) });
      },
      stopper: (stop) => void token.onCancellationRequested(stop),
    }),
  );
}

async function tell({ kind, folder }: Order, { code, said }: Ran, written: readonly string[]): Promise<void> {
  const files = `${written.length} ${written.length === 1 ? 'file is' : 'files are'} written to ${name(folder)}.`;
  if (code === null) {
    void window.showInformationMessage(`The ${kind} was stopped. ${files}`);
    return;
  }
  const pages = written.find((path) => path.endsWith('.pdf'));
  const reasons = said.trim().split('\n').slice(0, 3).join(' ');
  if (pages === undefined) {
    void window.showErrorMessage(`The ${kind} could not be made. ${reasons}`);
    return;
  }
  const told = reasons === '' ? window.showInformationMessage : window.showWarningMessage;
  if ((await told(`${files} ${reasons}`.trim(), 'Open')) === 'Open') await env.openExternal(Uri.file(pages));
}

const title = (kind: Kind): string => (kind === 'packet' ? 'Packet' : 'Booklet');
const name = (uri: Uri): string => uri.path.slice(uri.path.lastIndexOf('/') + 1);
const folderOf = (uri: Uri): Uri => Uri.joinPath(uri, '..');
