// The language server around one connection, the same for every place it runs in.
import type { Connection, InitializeParams, InitializeResult } from 'vscode-languageserver';
import { FileChangeType, TextDocumentSyncKind } from 'vscode-languageserver';
import { readBook } from '../abc/index.ts';
import type { ArrangeTools, ConfigProblem } from '../arrangement/index.ts';
import { makeTables } from '../fingering/index.ts';
import { lineIndex } from '../text/line-index.ts';
import { makeAnalysis } from './analysis.ts';
import { makeDesk } from './desk.ts';
import { makeDocuments } from './documents.ts';
import { configName, makeFiles } from './files.ts';
import { type Guard, makeGuard } from './guard.ts';
import { type Desktop, handlers } from './handlers/index.ts';
import { tokenLegend } from './handlers/tokens.ts';
import type { Host } from './host.ts';
import { makeIncludes } from './includes.ts';
import type { ClientOptions, FromClient } from './protocol.ts';
import { makePush } from './push.ts';
import { makeScheduler } from './scheduler.ts';
import { askClient, makeSettings, type Settings } from './settings.ts';
import { makeTuneIndex } from './tune-index.ts';
import { makeViews } from './views.ts';

/** Serves until the connection ends. */
export function serve(connection: Connection, host: Host): void {
  const log = connection.console;
  const guard = makeGuard(host, log);
  const client = clientFacts();
  const files = makeFiles(connection, host, () => client.reads);
  const includes = makeIncludes(files, (uri) =>
    guard.heed('include', () => {
      const document = documents.again(uri);
      if (document) desk.work(document);
    }),
  );
  const documents = makeDocuments(includes.of);
  const ask = askClient(connection);
  const settings = makeSettings({
    ask: (uri) => (client.configuration ? ask(uri) : null),
    files,
    roots: () => client.roots,
    problems: (uri, text, problems) => void connection.sendDiagnostics({ uri, diagnostics: configDiagnostics(text, problems) }),
    warn: (message) => log.warn(message),
  });
  const views = makeViews();
  const scheduler = makeScheduler(host, (key, problem) => guard.heed(key, () => rethrow(problem)));
  // For hours of typing into tunes of usual length a quarter is enough.
  const tables = makeTables(host.tableBytes, host.tableBytes / 4);
  const analysis = makeAnalysis(tables);
  const desk = makeDesk({ host, documents, settings, analysis, scheduler, views, push: makePush(connection) });
  const arranging = (uri: string): ArrangeTools => ({ read: readBook, tables, config: settings.of(uri) });
  const index = makeTuneIndex({ host, files, documents });
  const desktop: Desktop = { connection, host, guard, documents, settings, desk, index, arranging };

  connection.onInitialize((params) => initialized(client, settings, params));
  connection.onInitialized(() => guard.heed('initialized', () => watchSettings(connection, client)));
  const refresh = async (uris: readonly string[]): Promise<void> => {
    const before = settings.version;
    await settings.refresh(uris);
    if (settings.version === before) return;
    for (const document of documents.all()) desk.work(document);
  };
  heedDocuments(desktop, (uri) => void refresh([uri]));
  const all = (): readonly string[] => documents.all().map((document) => document.uri);
  connection.onDidChangeConfiguration(({ settings: value }) =>
    guard.heed('settings', () => {
      settings.given((value as { bullfiddle?: unknown } | null)?.bullfiddle ?? {});
      void refresh(all());
    }),
  );
  connection.onDidChangeWatchedFiles(({ changes }) =>
    guard.heed('files', () => {
      for (const { uri, type } of changes) {
        files.forget(uri);
        includes.changed(uri);
        index.forget(uri, type === FileChangeType.Changed ? 'changed' : 'moved');
      }
      if (changes.some(({ uri }) => uri.endsWith(configName))) void refresh(all());
    }),
  );
  heedViews(desktop, views, guard);
  connection.onShutdown(() => scheduler.drop(''));
  for (const handle of handlers) handle(desktop);
  connection.listen();
}

interface ClientFacts {
  reads: boolean;
  configuration: boolean;
  watches: boolean;
  roots: readonly string[];
}

const clientFacts = (): ClientFacts => ({ reads: false, configuration: false, watches: false, roots: [] });

function initialized(client: ClientFacts, settings: Settings, params: InitializeParams): InitializeResult {
  const options = (params.initializationOptions ?? {}) as ClientOptions;
  client.reads = options.reads === true;
  client.configuration = params.capabilities.workspace?.configuration === true;
  client.watches = params.capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
  client.roots = (params.workspaceFolders ?? []).map((folder) => folder.uri);
  settings.given(options.settings ?? {});
  return {
    serverInfo: { name: 'bullfiddle' },
    capabilities: {
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      ...capabilities,
    },
  };
}

const capabilities: InitializeResult['capabilities'] = {
  completionProvider: { triggerCharacters: ['!', '"', '^', ':', '=', ' '], resolveProvider: false },
  hoverProvider: true,
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  foldingRangeProvider: true,
  codeActionProvider: { codeActionKinds: ['quickfix', 'refactor'], resolveProvider: true },
  selectionRangeProvider: true,
  documentHighlightProvider: true,
  semanticTokensProvider: { legend: tokenLegend, full: true },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  // A bar that is closed is spaced by its beats, if the editor formats while typing.
  documentOnTypeFormattingProvider: { firstTriggerCharacter: '|' },
  signatureHelpProvider: { triggerCharacters: [':', '=', ' '] },
  inlayHintProvider: true,
  codeLensProvider: { resolveProvider: true },
  documentLinkProvider: {},
  definitionProvider: true,
  referencesProvider: true,
  renameProvider: { prepareProvider: true },
};

async function watchSettings(connection: Connection, client: ClientFacts): Promise<void> {
  const registrations = [];
  if (client.configuration)
    registrations.push({ id: 'settings', method: 'workspace/didChangeConfiguration', registerOptions: { section: 'bullfiddle' } });
  if (client.watches) {
    const registerOptions = { watchers: [{ globPattern: `**/${configName}` }, { globPattern: '**/*.abc' }, { globPattern: '**/*.abh' }] };
    registrations.push({ id: 'config-files', method: 'workspace/didChangeWatchedFiles', registerOptions });
  }
  if (registrations.length > 0) await connection.sendRequest('client/registerCapability', { registrations });
}

function heedDocuments({ connection, guard, documents, desk }: Desktop, opened: (uri: string) => void): void {
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) =>
    guard.heed('open', () => {
      desk.work(documents.open(uri, version, text));
      opened(uri);
    }),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    guard.heed('change', () => {
      const document = documents.change(uri, version, contentChanges);
      if (document) desk.work(document);
    }),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) =>
    guard.heed('close', () => {
      desk.closed(uri);
      documents.close(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    }),
  );
}

function heedViews({ connection, documents, desk }: Desktop, views: ReturnType<typeof makeViews>, guard: Guard): void {
  connection.onNotification('bullfiddle/show', (view: FromClient['bullfiddle/show']) =>
    guard.heed('show', () => {
      const document = documents.get(view.uri);
      if (views.show(view, document) === 'turned' && document) desk.show(document);
    }),
  );
  connection.onNotification('bullfiddle/hide', ({ view }: FromClient['bullfiddle/hide']) => guard.heed('hide', () => views.hide(view)));
}

function configDiagnostics(text: string, problems: readonly ConfigProblem[]) {
  const lines = lineIndex(text);
  return problems.map((problem) => ({
    range: { start: lines.positionAt(problem.from), end: lines.positionAt(problem.to) },
    severity: 2 as const,
    source: 'bullfiddle',
    message: problem.message,
  }));
}

function rethrow(problem: unknown): never {
  throw problem;
}
