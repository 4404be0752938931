// Entry in a desktop or remote editor: the language server runs in a process of its own.
import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { type Api, clientOptions, activate as start } from './activate.ts';
import { programAt } from './program.ts';

export function activate(context: ExtensionContext): Promise<Api> {
  const bundle = (name: string): string => Uri.joinPath(context.extensionUri, 'dist', name).fsPath;
  const server = { module: bundle('server.js'), transport: TransportKind.ipc };
  return start(context, new LanguageClient('bullfiddle', 'Bullfiddle', server, clientOptions), programAt(bundle('cli.js')));
}
