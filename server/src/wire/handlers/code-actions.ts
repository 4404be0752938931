// Quick fixes of findings, and the changes a player may want at a place; a change is worked out when it is taken.
import { type CodeAction, CodeActionKind, type Range } from 'vscode-languageserver';
import type { PlanStage } from '../../arrangement/types.ts';
import type { Finding } from '../../checks/check.ts';
import { headerFindings } from '../../checks/index.ts';
import { actions, quickFixes } from '../../features/index.ts';
import type { Span } from '../../text/span.ts';
import { diagnosticOf, placeOf, textEdit, tuneStart } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { planOf } from './stages.ts';

interface Taken {
  readonly uri: string;
  readonly version: number;
  readonly tune: number;
  readonly selection: Span;
  readonly action: string;
  readonly variant: string;
}

export function codeActions(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onCodeAction(({ textDocument: { uri }, range, context }, token) =>
    guard.answer<CodeAction[]>('actions', [], token, async () => {
      const document = documents.get(uri);
      if (!document) return [];
      const { tune } = placeOf(document, range.start);
      const selection = selectionOf(document, tune, range);
      const wanted = (kind: string): boolean => context.only === undefined || context.only.some((only) => kind.startsWith(only));
      const fixing = wanted(CodeActionKind.QuickFix);
      if (tune < 0) return fixing ? fixes(document, tune, headerFindings(document.book, desktop.settings.of(uri)), selection) : [];
      // Asked at every move of the caret: the findings are those that are shown already.
      const planned = await desktop.desk.planned(document, tune);
      if (planned === null) return [];
      return [
        ...(fixing ? fixes(document, tune, planned.findings, selection) : []),
        ...(wanted(CodeActionKind.Refactor) ? offers(document, tune, planned.plan, selection) : []),
      ];
    }),
  );
  connection.onCodeActionResolve((action, token) => guard.answer('action', action, token, () => worked(desktop, action)));
}

function selectionOf(document: OpenDocument, tune: number, range: Range): Span {
  const at = tuneStart(document, tune);
  return { from: document.lines.offsetAt(range.start) - at, to: document.lines.offsetAt(range.end) - at };
}

function fixes(document: OpenDocument, tune: number, findings: readonly Finding[], selection: Span): CodeAction[] {
  return quickFixes(findings, selection).map(({ title, edits, finding, preferred }) => ({
    title,
    kind: CodeActionKind.QuickFix,
    isPreferred: preferred,
    diagnostics: [diagnosticOf(document, tune, finding)],
    edit: { changes: { [document.uri]: edits.map((edit) => textEdit(document, tune, edit)) } },
  }));
}

function offers(document: OpenDocument, tune: number, plan: PlanStage, selection: Span): CodeAction[] {
  return actions.flatMap((action) =>
    action.offers(plan, selection).map(({ variant, title }) => {
      const data: Taken = { uri: document.uri, version: document.version, tune, selection, action: action.id, variant };
      return { title, kind: CodeActionKind.Refactor, data };
    }),
  );
}

async function worked(desktop: Desktop, offered: CodeAction): Promise<CodeAction> {
  const taken = offered.data as Taken;
  const document = desktop.documents.get(taken.uri);
  const action = actions.find((one) => one.id === taken.action);
  if (!document || document.version !== taken.version || !action) return offered;
  const plan = await planOf(desktop, document, taken.tune);
  if (plan === null) return offered;
  const edits = action.edits(plan, taken.selection, taken.variant, desktop.arranging(taken.uri));
  return { ...offered, edit: { changes: { [taken.uri]: edits.map((edit) => textEdit(document, taken.tune, edit)) } } };
}
