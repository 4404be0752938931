// All sheets: which shows which file, what the server sends to whom, and how they follow the active editor.
import {
  commands,
  type ExtensionContext,
  type TextDocument,
  type TextEditor,
  TextEditorSelectionChangeKind,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { Line } from '../line.ts';
import { makeMoves } from './moves.ts';
import { makeSheet, type Sheet, type SheetTools } from './panel.ts';
import { makePracticeStore } from './practices.ts';
import { makeRevisions, type Stretch } from './revisions.ts';
import { lookOf } from './settings.ts';

export const panelType = 'bullfiddle.sheet';

export interface Sheets {
  /** Opens a sheet beside the editor, or brings the one that follows to the front. */
  open(editor: TextEditor): void;
  /** Takes over a panel that the editor has restored; `uri` is the file it showed, if it is known. */
  restore(panel: WebviewPanel, uri: string | null): Promise<void>;
  /** The sheet in front, else the one used last. */
  current(): Sheet | null;
  all(): readonly Sheet[];
}

export const isTuneText = (document: TextDocument): boolean => document.languageId === 'abc';

export function makeSheets(context: ExtensionContext, line: Line): Sheets {
  const sheets = new Set<Sheet>();
  const revisions = makeRevisions();
  const moves = makeMoves(() => performance.now());
  let count = 0;
  const tools: SheetTools = {
    extension: context.extensionUri,
    line,
    revisions,
    moves,
    practices: makePracticeStore(context.workspaceState),
    closed: (sheet) => {
      sheets.delete(sheet);
      void tell(sheets);
    },
    changed: () => void tell(sheets),
  };
  const adopt = (panel: WebviewPanel): Sheet => {
    const sheet = makeSheet(panel, `sheet-${++count}`, tools);
    sheets.add(sheet);
    panel.onDidChangeViewState(() => void tell(sheets));
    return sheet;
  };
  const showIn = (sheet: Sheet, editor: TextEditor): void => sheet.show(editor.document, caretOf(editor));

  hear(line, sheets);
  context.subscriptions.push(
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      const changes = contentChanges.map(({ rangeOffset, rangeLength, text }) => ({
        from: rangeOffset,
        length: rangeLength,
        inserted: text.length,
      }));
      // A change of state alone (saved, language) has no changes and keeps its version.
      if (isTuneText(document) && changes.length > 0) revisions.note(document.uri.toString(), document.version, changes);
    }),
    workspace.onDidCloseTextDocument((document) => revisions.forget(document.uri.toString())),
    window.onDidChangeActiveTextEditor((editor) => {
      if (editor) moves.front(editor.document.uri.toString());
      if (!editor || !isTuneText(editor.document)) return;
      for (const sheet of sheets) if (!sheet.locked && sheet.uri !== editor.document.uri.toString()) showIn(sheet, editor);
    }),
    window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      // Without a kind the caret was only carried along by an edit.
      if (kind !== undefined) moves.caret(textEditor.document.uri.toString(), spanOf(textEditor));
      if (isTuneText(textEditor.document)) follow(sheets, textEditor, kind);
    }),
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration('bullfiddle.sheet')) for (const sheet of sheets) sheet.redraw();
    }),
  );
  return {
    open(editor) {
      const there = [...sheets].find((sheet) => !sheet.locked) ?? null;
      if (there) {
        there.panel.reveal(undefined, true);
        showIn(there, editor);
        return;
      }
      const panel = window.createWebviewPanel(panelType, 'Sheet', { viewColumn: ViewColumn.Beside, preserveFocus: true });
      showIn(adopt(panel), editor);
    },
    async restore(panel, uri) {
      const sheet = adopt(panel);
      const editor = window.visibleTextEditors.find(
        (one) => isTuneText(one.document) && (uri === null || one.document.uri.toString() === uri),
      );
      if (editor) return showIn(sheet, editor);
      const document = uri === null ? null : await openQuietly(uri);
      if (document) sheet.show(document, 0);
      else sheet.post({ kind: 'nothing', message: 'Open a tune book (.abc), and its tune is shown here.' });
    },
    current: () => [...sheets].find((sheet) => sheet.panel.active) ?? [...sheets].at(-1) ?? null,
    all: () => [...sheets],
  };
}

const spanOf = ({ document, selection }: TextEditor): Stretch => ({
  from: document.offsetAt(selection.start),
  to: document.offsetAt(selection.end),
});

/** Where the reader is: a selection counts from its start, so that a selected note is the one that is marked. */
const caretOf = (editor: TextEditor): number => spanOf(editor).from;

function follow(sheets: ReadonlySet<Sheet>, editor: TextEditor, kind: TextEditorSelectionChangeKind | undefined): void {
  const { document } = editor;
  const offset = caretOf(editor);
  const { follow: when } = lookOf(document.uri);
  // A caret among several, or one that a click in the sheet has put there, is marked only.
  const mouse = kind === TextEditorSelectionChangeKind.Mouse && editor.selections.length === 1;
  const reveal = when === 'always' || (when === 'mouse' && mouse) ? 'scroll' : 'mark';
  for (const sheet of sheets) {
    if (sheet.uri !== document.uri.toString()) continue;
    sheet.show(document, offset);
    sheet.caret(document, offset, reveal);
  }
}

/** Passes on what the server sends. */
function hear(line: Line, sheets: ReadonlySet<Sheet>): void {
  const named = (names: readonly string[]): readonly Sheet[] => [...sheets].filter((sheet) => names.includes(sheet.name));
  line.on('bullfiddle/scene', ({ views, scene }) => {
    for (const sheet of named(views)) {
      const document = workspace.textDocuments.find((one) => one.uri.toString() === scene.uri);
      if (document) sheet.post({ kind: 'scene', scene, look: lookOf(document.uri) });
    }
  });
  line.on('bullfiddle/plan', ({ views, news }) => {
    for (const sheet of named(views)) sheet.post({ kind: 'plan', ...news });
  });
  line.on('bullfiddle/nothing', ({ views, message }) => {
    for (const sheet of named(views)) sheet.post({ kind: 'nothing', message });
  });
}

async function openQuietly(uri: string): Promise<TextDocument | null> {
  return workspace.openTextDocument(Uri.parse(uri)).then(
    (document) => document,
    () => null,
  );
}

async function tell(sheets: ReadonlySet<Sheet>): Promise<void> {
  await commands.executeCommand('setContext', 'bullfiddle.sheetOpen', sheets.size > 0);
}
