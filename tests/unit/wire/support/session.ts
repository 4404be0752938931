// A language server in this process, with a client at the other end of its streams and a host whose turns the test gives.
import { PassThrough } from 'node:stream';
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import {
  createProtocolConnection,
  type Diagnostic,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type TextEdit,
} from 'vscode-languageserver-protocol/node';
import type { HandoutMaker } from '../../../../server/src/wire/host.ts';
import type { AskServer, FromServer } from '../../../../server/src/wire/protocol.ts';
import { serve } from '../../../../server/src/wire/server.ts';

export interface Session {
  readonly client: ProtocolConnection;
  /** Lines of the server's log. */
  readonly log: readonly string[];
  readonly diagnostics: readonly PublishDiagnosticsParams[];
  readonly scenes: readonly FromServer['bullfiddle/scene'][];
  open(uri: string, text: string): Promise<void>;
  /** Replaces all of `old` found first by `now`, as one edit to a range. */
  edit(uri: string, old: string, now: string): Promise<void>;
  text(uri: string): string;
  version(uri: string): number;
  /** The diagnostics of the document at its present version, once they satisfy `wanted`. */
  findings(uri: string, wanted: (all: readonly Diagnostic[]) => boolean): Promise<readonly Diagnostic[]>;
  ask<M extends keyof AskServer>(method: M, params: AskServer[M]['ask']): Promise<AskServer[M]['answer']>;
  end(): Promise<void>;
}

export interface Around {
  /** Files of the folder by address. */
  readonly files?: Readonly<Record<string, string>>;
  /** The editor's settings. */
  readonly settings?: unknown;
  /** `never` keeps every search waiting. */
  readonly turns?: 'given' | 'never';
  /** Whether the makers of pages are at hand. */
  readonly handouts?: HandoutMaker | null;
}

export async function startSession({ files = {}, settings = {}, turns = 'given', handouts = null }: Around = {}): Promise<Session> {
  const [up, down] = [new PassThrough(), new PassThrough()];
  let over = false;
  const server = createConnection(new StreamMessageReader(up), new StreamMessageWriter(down));
  serve(server, {
    now: () => performance.now(),
    soon: (work) => void (turns === 'given' && setImmediate(() => over || work())),
    read: () => Promise.resolve(null),
    handouts,
    tableBytes: 8 * 1024 * 1024,
  });
  const client = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  const log: string[] = [];
  const diagnostics: PublishDiagnosticsParams[] = [];
  const scenes: FromServer['bullfiddle/scene'][] = [];
  const texts = new Map<string, { version: number; text: string }>();
  client.onNotification('window/logMessage', ({ message }: { message: string }) => void log.push(message));
  client.onNotification('textDocument/publishDiagnostics', (told: PublishDiagnosticsParams) => void diagnostics.push(told));
  client.onNotification('bullfiddle/scene', (scene: FromServer['bullfiddle/scene']) => void scenes.push(scene));
  client.onRequest('bullfiddle/read', ({ uri }: { uri: string }) => files[uri] ?? null);
  client.onRequest('bullfiddle/list', () => Object.keys(files).filter((uri) => uri.endsWith('.abc')));
  client.onRequest('workspace/configuration', ({ items }: { items: readonly unknown[] }) => items.map(() => settings));
  client.onRequest('client/registerCapability', () => null);
  client.listen();
  await client.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: [{ uri: 'test:///book', name: 'book' }],
    capabilities: { workspace: { configuration: true, didChangeWatchedFiles: { dynamicRegistration: true } } },
    initializationOptions: { reads: true },
  });
  await client.sendNotification('initialized', {});
  return {
    client,
    log,
    diagnostics,
    scenes,
    text: (uri) => texts.get(uri)!.text,
    version: (uri) => texts.get(uri)!.version,
    async open(uri, text) {
      texts.set(uri, { version: 1, text });
      await client.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'abc', version: 1, text } });
    },
    async edit(uri, old, now) {
      const before = texts.get(uri)!;
      const at = before.text.indexOf(old);
      if (at < 0) throw new Error(`"${old}" is not in the text`);
      const range = { start: placeIn(before.text, at), end: placeIn(before.text, at + old.length) };
      const version = before.version + 1;
      texts.set(uri, { version, text: before.text.slice(0, at) + now + before.text.slice(at + old.length) });
      await client.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ range, text: now }] });
    },
    findings: (uri, wanted) =>
      until(`the findings of ${uri}`, () => {
        const last = diagnostics.findLast((told) => told.uri === uri && told.version === texts.get(uri)?.version);
        return last !== undefined && wanted(last.diagnostics) ? last.diagnostics : null;
      }),
    ask: (method, params) => client.sendRequest(method, params),
    async end() {
      await client.sendRequest('shutdown');
      over = true;
      client.dispose();
      server.dispose();
    },
  };
}

/** Line and character of an offset in a text with `\n`. */
export function placeIn(text: string, offset: number): { readonly line: number; readonly character: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)!.length };
}

/** The text after edits as the protocol gives them. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const offsetOf = ({ line, character }: TextEdit['range']['start']): number =>
    text
      .split('\n')
      .slice(0, line)
      .reduce((sum, one) => sum + one.length + 1, character);
  const placed = edits.map(({ range, newText }) => ({ from: offsetOf(range.start), to: offsetOf(range.end), newText }));
  return placed
    .sort((a, b) => b.from - a.from || b.to - a.to)
    .reduce((done, { from, to, newText }) => done.slice(0, from) + newText + done.slice(to), text);
}

/** Waits until `look` gives something; a test's own time limit ends a wait in vain. */
export async function until<T>(what: string, look: () => T | null): Promise<T> {
  for (let turn = 0; turn < 4_000; turn++) {
    const seen = look();
    if (seen !== null) return seen;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  throw new Error(`There never were ${what}.`);
}
