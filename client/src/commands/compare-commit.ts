// Shows what changed in a tune book since the last commit: both states side by side, what changed marked.
import { extensions, type Uri, ViewColumn, window } from 'vscode';
import type { CommandTools } from './index.ts';
import { tuneEditor } from './wish.ts';

/** What is used of the editor's own git extension (its public interface, version 1). */
interface GitExtension {
  getAPI(version: 1): {
    getRepository(uri: Uri): { show(ref: string, path: string): Promise<string> } | null;
  };
}

export async function compareWithCommit({ line }: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (!editor) return;
  const { uri } = editor.document;
  const committed = await committedText(uri);
  if ('problem' in committed) {
    void window.showInformationMessage(committed.problem);
    return;
  }
  const answer = await line.ask('bullfiddle/compare', { uri: uri.toString(), old: committed.text, before: 'Last commit' });
  if (answer.page === null) void window.showInformationMessage(answer.words);
  else show(uri, answer.page);
}

async function committedText(uri: Uri): Promise<{ readonly text: string } | { readonly problem: string }> {
  const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
  const git = await gitOfEditor();
  if (git === null)
    return { problem: 'The editor’s git support is not there or switched off (git.enabled), so the last commit cannot be read.' };
  const repository = git.getRepository(uri);
  if (repository === null) return { problem: `${name} is in no git repository that is open here.` };
  try {
    return { text: await repository.show('HEAD', uri.fsPath) };
  } catch {
    return { problem: `${name} is not in the last commit, or there is no commit yet.` };
  }
}

async function gitOfEditor(): Promise<ReturnType<GitExtension['getAPI']> | null> {
  try {
    return (await extensions.getExtension<GitExtension>('vscode.git')?.activate())?.getAPI(1) ?? null;
  } catch {
    // Where it is switched off, asking for it throws.
    return null;
  }
}

/** The page runs no script and reaches nothing. */
function show(uri: Uri, page: string): void {
  const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
  const panel = window.createWebviewPanel('bullfiddle.changes', `Changes: ${name}`, ViewColumn.Beside, { localResourceRoots: [] });
  panel.webview.html = page;
}
