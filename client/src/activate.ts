// What both entries do: starts the language server's client, and wires sheets, commands and the status item to it.
import { type ExtensionContext, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { registerCommands } from './commands/index.ts';
import { lineTo } from './line.ts';
import { besideType, makeBeside } from './preview/beside.ts';
import { makeSheets, panelType, type Sheets } from './preview/sheets.ts';
import type { Program } from './program.ts';
import { showStatus } from './status.ts';

/** What tests and other extensions may ask of this one. */
export interface Api {
  /** Of each sheet: its file, the last revision on the screen, and what waits. */
  sheets(): readonly { readonly uri: string; readonly painted: { readonly document: number } | null; readonly waiting: number }[];
}

export const clientOptions: LanguageClientOptions = {
  documentSelector: [{ language: 'abc' }],
  initializationOptions: { reads: true },
};

/** `program` is our command line, null where none can be run. */
export async function activate(context: ExtensionContext, client: BaseLanguageClient, program: Program | null): Promise<Api> {
  const line = lineTo(client);
  client.onRequest('bullfiddle/read', ({ uri }: { uri: string }) => readFile(uri));
  client.onRequest('bullfiddle/list', listTunes);
  const sheets = makeSheets(context, line);
  const beside = makeBeside(context, line);
  registerCommands(context, { sheets, beside, client, line, program });
  showStatus(context, line);
  context.subscriptions.push(
    client,
    window.registerWebviewPanelSerializer(besideType, { deserializeWebviewPanel: (panel) => beside.restore(panel) }),
    window.registerWebviewPanelSerializer(panelType, {
      // A state that was never set, or by an older version, must not keep the panel from coming back.
      deserializeWebviewPanel: (panel, state: unknown) => sheets.restore(panel, uriIn(state)),
    }),
  );
  await client.start();
  return apiOf(sheets);
}

const apiOf = (sheets: Sheets): Api => ({
  sheets: () => sheets.all().map(({ uri, painted, waiting }) => ({ uri, painted, waiting })),
});

function uriIn(state: unknown): string | null {
  const uri = typeof state === 'object' && state !== null && 'uri' in state ? state.uri : null;
  return typeof uri === 'string' ? uri : null;
}

/** More tune files than this in the open folders are not searched. */
const mostFiles = 20_000;

async function listTunes(): Promise<readonly string[]> {
  return (await workspace.findFiles('**/*.abc', undefined, mostFiles)).map((uri) => uri.toString());
}

/** Files are read through the editor, so that virtual folders work; null where there is none. */
async function readFile(uri: string): Promise<string | null> {
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(Uri.parse(uri)));
  } catch {
    return null;
  }
}
