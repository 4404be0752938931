// Starts a tune book in a folder: what is agreed for it, and a first tune that says how one is written.
import { Selection, Uri, type WorkspaceFolder, window, workspace } from 'vscode';

const config = `{
  "player": { "tuning": "standard", "mensur": 1050, "hand": "medium", "school": "closed" },
  "handout": { "paper": "a4", "density": "changes", "credit": "" }
}
`;

const tune = `%abc-2.1
% A tune begins with its number (X:) and title (T:). Lines after a % are remarks.
X:1
T:First Tune
% Meter, length of a plain note, tempo and key: in the bass clef it is a bass part, and is fingered.
M:4/4
L:1/4
Q:1/4=80
K:G clef=bass
% The open strings from the lowest: E,, A,, D, G,. A bar ends with |, the tune with |].
G,,B,,D,E,|D,B,,A,,G,,|]
`;

/** Names of the two files of a new book. */
const configName = 'bullfiddle.json';
const tuneName = 'first-tune.abc';

export async function newBook(): Promise<void> {
  const folder = await bookFolder();
  if (folder === null) return;
  const place = Uri.joinPath(folder.uri, tuneName);
  try {
    // What is there already is never overwritten.
    await writtenOnce(Uri.joinPath(folder.uri, configName), config);
    await writtenOnce(place, tune);
  } catch (problem) {
    void window.showErrorMessage(
      `The book could not be started in ${folder.name}: ${problem instanceof Error ? problem.message : String(problem)}`,
    );
    return;
  }
  const editor = await window.showTextDocument(await workspace.openTextDocument(place));
  const title = editor.document.getText().indexOf('First Tune');
  if (title < 0) return;
  editor.selection = new Selection(editor.document.positionAt(title), editor.document.positionAt(title + 'First Tune'.length));
}

async function bookFolder(): Promise<WorkspaceFolder | null> {
  const folders = workspace.workspaceFolders ?? [];
  if (folders.length > 1) return (await window.showWorkspaceFolderPick({ placeHolder: 'The folder of the new tune book' })) ?? null;
  if (folders[0] !== undefined) return folders[0];
  void window.showInformationMessage('Open a folder first (File: Open Folder): a tune book is a folder of tunes.');
  return null;
}

async function writtenOnce(uri: Uri, text: string): Promise<void> {
  const there = await workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
  if (!there) await workspace.fs.writeFile(uri, new TextEncoder().encode(text));
}
