// The panel with a tune's low and high version side by side: drawn again when the file is saved, and brought back after a restart.
import { type ExtensionContext, type TextDocument, Uri, ViewColumn, type WebviewPanel, window, workspace } from 'vscode';
import type { Line } from '../line.ts';

export const besideType = 'bullfiddle.beside';

/** What is shown, as it is remembered from one session to the next. */
interface Shown {
  readonly uri: string;
  readonly tune: string;
}

const remembered = 'bullfiddle.beside';

export interface BesidePanel {
  /** Shows the versions of the tune at an offset; says so if there are none. */
  show(document: TextDocument, offset: number): Promise<void>;
  /** Takes over a panel that the editor has restored. */
  restore(panel: WebviewPanel): Promise<void>;
}

export function makeBeside(context: ExtensionContext, line: Line): BesidePanel {
  let panel: WebviewPanel | null = null;
  let shown: Shown | null = null;

  function adopt(next: WebviewPanel): void {
    panel = next;
    next.onDidDispose(() => {
      if (panel === next) panel = null;
    });
  }

  /** The page runs no script and reaches nothing. */
  function take(uri: string, tune: string, page: string): void {
    panel ??= window.createWebviewPanel(besideType, '', { viewColumn: ViewColumn.Beside, preserveFocus: true }, { localResourceRoots: [] });
    adopt(panel);
    shown = { uri, tune };
    panel.title = `Low and High: ${decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1))}`;
    panel.webview.html = page;
    void context.workspaceState.update(remembered, shown);
  }

  /** Draws again what was shown; where that cannot be, the picture stays. */
  async function draw({ uri, tune }: Shown): Promise<boolean> {
    const answer = await line.ask('bullfiddle/beside', { uri, offset: 0, tune });
    if (answer.page === null || panel === null) return false;
    take(uri, tune, answer.page);
    return true;
  }

  async function drawLast(): Promise<boolean> {
    const last = context.workspaceState.get<Shown>(remembered);
    if (last === undefined) return false;
    return workspace.openTextDocument(Uri.parse(last.uri)).then(
      () => draw(last),
      () => false,
    );
  }

  context.subscriptions.push(
    workspace.onDidSaveTextDocument((document) => {
      if (panel !== null && shown?.uri === document.uri.toString()) void draw(shown);
    }),
  );
  return {
    async show(document, offset) {
      const uri = document.uri.toString();
      const { page, tune, words } = await line.ask('bullfiddle/beside', { uri, offset, tune: null });
      if (page === null || tune === null) void window.showInformationMessage(words);
      else {
        take(uri, tune, page);
        panel?.reveal(undefined, true);
      }
    },
    async restore(restored) {
      adopt(restored);
      if (!(await drawLast())) restored.webview.html = '<p>Run “Show Low and High Side by Side” in a tune to see its versions here.</p>';
    },
  };
}
