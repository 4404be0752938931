// One sheet: a panel beside the text that shows the tune at the caret, and sends clicks back to the text.
import {
  type Disposable,
  Selection,
  type TextDocument,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { type FromPage, isOf, planned, type Revision, type ToPage } from '../../messages.ts';
import type { Line } from '../line.ts';
import { choose, placesFor } from './choosing.ts';
import { pageHtml } from './html.ts';
import { type Mailbox, makeMailbox } from './mailbox.ts';
import { go, type Moves, type Way } from './moves.ts';
import type { PracticeStore } from './practices.ts';
import type { Revisions } from './revisions.ts';
import { samplesOf } from './samples.ts';
import { lookOf } from './settings.ts';

/** Scenes whose clicks can still be placed: a page is at most a few behind. */
const mostScenes = 8;

type SceneMessage = Extract<ToPage, { kind: 'scene' }>;

export interface Sheet extends Disposable {
  readonly name: string;
  readonly panel: WebviewPanel;
  readonly uri: string;
  readonly locked: boolean;
  /** The last revision that the page says it has painted. */
  readonly painted: Revision | null;
  /** Pictures waiting for the page. */
  readonly waiting: 0 | 1;
  toggleLock(): void;
  /** Shows the tune at `offset` of the document. */
  show(document: TextDocument, offset: number): void;
  /** Marks the note at the caret; scrolls there if asked. */
  caret(document: TextDocument, offset: number, reveal: 'scroll' | 'mark'): void;
  post(message: ToPage): void;
  /** Draws the last picture again, as the settings now ask. */
  redraw(): void;
}

export interface SheetTools {
  readonly extension: Uri;
  readonly line: Line;
  readonly revisions: Revisions;
  readonly moves: Moves;
  readonly practices: PracticeStore;
  /** Called when the panel is closed. */
  closed(sheet: Sheet): void;
  /** Called when lock or file changes. */
  changed(sheet: Sheet): void;
}

interface State {
  uri: string;
  offset: number;
  locked: boolean;
  painted: Revision | null;
  /** The newest scenes, last one last. */
  scenes: readonly SceneMessage['scene'][];
}

/** Wires a fresh or restored panel. `name` tells the server which panel asks. */
export function makeSheet(panel: WebviewPanel, name: string, tools: SheetTools): Sheet {
  const state: State = { uri: '', offset: 0, locked: false, painted: null, scenes: [] };
  const mailbox = makeMailbox((message) => void panel.webview.postMessage(message));
  const remind = (): void => {
    const practice = tools.practices.of(state.uri);
    if (practice !== null) mailbox.post({ kind: 'practice', uri: state.uri, practice });
  };
  const ask = (): void => {
    if (state.uri !== '') tools.line.notify('bullfiddle/show', { view: name, uri: state.uri, offset: state.offset });
  };
  const sheet: Sheet = {
    name,
    panel,
    get uri() {
      return state.uri;
    },
    get locked() {
      return state.locked;
    },
    get painted() {
      return state.painted;
    },
    get waiting() {
      return mailbox.waiting;
    },
    toggleLock() {
      state.locked = !state.locked;
      titled(panel, state);
      tools.changed(sheet);
    },
    show(document, offset) {
      const uri = document.uri.toString();
      const other = uri !== state.uri;
      state.uri = uri;
      state.offset = offset;
      if (other) remind();
      ask();
      if (!other) return;
      titled(panel, state);
      tools.changed(sheet);
    },
    caret: (document, offset, reveal) => mark(state, mailbox, tools, { document, offset, reveal }),
    post(message) {
      remember(state, message);
      mailbox.post(message);
    },
    redraw() {
      const scene = state.scenes.at(-1);
      if (scene !== undefined) mailbox.post({ kind: 'scene', scene, look: lookOf(Uri.parse(scene.uri)) });
    },
    dispose: () => panel.dispose(),
  };
  const listening = panel.webview.onDidReceiveMessage((message: FromPage) => {
    heed(message, { sheet, state, mailbox, tools, remind, ask });
  });
  panel.onDidDispose(() => {
    listening.dispose();
    tools.line.notify('bullfiddle/hide', { view: name });
    tools.closed(sheet);
  });
  panel.webview.options = { enableScripts: true, enableForms: false, localResourceRoots: rootsOf(tools.extension) };
  panel.webview.html = pageHtml(panel.webview, tools.extension);
  return sheet;
}

/** Keeps the newest scenes, the last one with its plan. */
function remember(state: State, message: ToPage): void {
  if (message.kind === 'scene') state.scenes = [...state.scenes.slice(1 - mostScenes), message.scene];
  const last = state.scenes.at(-1);
  if (message.kind === 'plan' && last !== undefined) state.scenes = [...state.scenes.slice(0, -1), planned(last, message)];
}

const rootsOf = (extension: Uri): readonly Uri[] =>
  ['dist', 'media'].map((folder) => extension.with({ path: `${extension.path}/${folder}` }));

function titled(panel: WebviewPanel, { uri, locked }: State): void {
  const file = decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
  panel.title = `${locked ? 'Locked: ' : 'Sheet: '}${file}`;
}

interface Heard {
  readonly sheet: Sheet;
  readonly state: State;
  readonly mailbox: Mailbox;
  readonly tools: SheetTools;
  remind(): void;
  ask(): void;
}

function heed(message: FromPage, { sheet, state, mailbox, tools, remind, ask }: Heard): void {
  switch (message.kind) {
    case 'ready':
      mailbox.ready();
      remind();
      // A page that was hidden has lost its picture: ask as if the panel were new.
      tools.line.notify('bullfiddle/hide', { view: sheet.name });
      ask();
      return;
    case 'painted':
      state.painted = message.revision;
      mailbox.painted();
      return;
    case 'reveal':
      void reveal(message, state, tools);
      return;
    case 'ask-places':
      void placesFor(message, tools.line).then((choices) => {
        if (choices !== null) mailbox.post({ kind: 'places', ask: message.ask, note: message.note, head: message.head, choices });
      });
      return;
    case 'choose':
      void choose(message, tools.line);
      return;
    case 'ask-samples':
      void samplesOf(tools.extension, message.roots).then((samples) => mailbox.post(samples));
      return;
    case 'practice':
      tools.practices.keep(message.uri, message.practice);
      return;
    case 'failed':
      tools.line.log(`Sheet, ${message.where}: ${message.message}`);
      mailbox.painted();
      return;
  }
}

function mark(
  state: State,
  mailbox: Mailbox,
  tools: SheetTools,
  at: { document: TextDocument; offset: number; reveal: 'scroll' | 'mark' },
): void {
  const scene = state.scenes.at(-1);
  if (scene === undefined || scene.uri !== at.document.uri.toString()) return;
  const start = tools.revisions.carry(scene.uri, { from: scene.at, to: scene.at }, scene.revision.document, at.document.version);
  if (start === null) return;
  const { uri, tune, revision } = scene;
  mailbox.post({ kind: 'caret', uri, tune, offset: at.offset - start.from, revision, reveal: at.reveal });
}

/** Selects a stretch of the text that was clicked in a picture of an earlier or the present text. */
function reveal(message: Extract<FromPage, { kind: 'reveal' }>, state: State, { revisions, moves }: SheetTools): Promise<void> {
  const scene = state.scenes.findLast((one) => isOf(one, message));
  if (scene === undefined) return Promise.resolve();
  const { uri, revision } = scene;
  const clicked = { from: scene.at + message.from, to: scene.at + message.to };
  const way: Way<TextDocument, TextEditor> = {
    uri,
    open: async () => workspace.openTextDocument(Uri.parse(uri)),
    where: ({ version }) => revisions.carry(uri, clicked, revision.document, version),
    show: async (document) => {
      const editor = window.visibleTextEditors.find((one) => one.document === document);
      return window.showTextDocument(document, {
        viewColumn: editor?.viewColumn ?? ViewColumn.One,
        preserveFocus: message.focus === 'keep',
      });
    },
    select: (editor, { from, to }) => {
      editor.selection = new Selection(editor.document.positionAt(from), editor.document.positionAt(to));
      editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
    },
  };
  return go(way, moves, performance.now() - message.age);
}
