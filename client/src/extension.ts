// Entry in a desktop or remote editor: the language server runs in a process of its own.
import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { type Api, clientOptions, activate as start } from './activate.ts';

export function activate(context: ExtensionContext): Promise<Api> {
  const module = Uri.joinPath(context.extensionUri, 'dist', 'server.js').fsPath;
  const server = { module, transport: TransportKind.ipc };
  return start(context, new LanguageClient('bullfiddle', 'Bullfiddle', server, clientOptions));
}
