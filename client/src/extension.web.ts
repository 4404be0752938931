// Entry in a browser: the language server runs in a web worker.
import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { type Api, clientOptions, activate as start } from './activate.ts';

/** The worker's constructor of the host, which the types of Node do not name. */
declare const Worker: new (url: string) => ConstructorParameters<typeof LanguageClient>[2] & object;

export function activate(context: ExtensionContext): Promise<Api> {
  const worker = new Worker(Uri.joinPath(context.extensionUri, 'dist', 'server.web.js').toString(true));
  return start(context, new LanguageClient('bullfiddle', 'Bullfiddle', worker, clientOptions), null);
}
