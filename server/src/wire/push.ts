// Tells the client what was found out: findings of a whole document, scenes and plans of the tunes that panels look at.
import type { Connection, Diagnostic } from 'vscode-languageserver';
import { DiagnosticSeverity } from 'vscode-languageserver';
import type { Finding } from '../checks/check.ts';
import type { Revision } from '../engraving/types.ts';
import type { TuneState } from './analysis.ts';
import { diagnosticOf } from './convert.ts';
import type { OpenDocument } from './documents.ts';
import type { FromServer } from './protocol.ts';
import { planNews, sceneOf } from './scene.ts';

/** Most findings shown for a file; more help nobody. */
export const mostFindings = 1_000;

export interface Push {
  /** `of` gives the findings of each tune, and for -1 of the text in front of the first. */
  findings(document: OpenDocument, of: (tune: number) => readonly Finding[], notice: string | null): void;
  scene(document: OpenDocument, tune: number, revision: Revision, state: TuneState, views: readonly string[]): void;
  plan(document: OpenDocument, tune: number, revision: Revision, state: TuneState, views: readonly string[]): void;
  nothing(uri: string, views: readonly string[], message: string): void;
}

export function makePush(connection: Connection): Push {
  const send = <M extends keyof FromServer>(method: M, params: FromServer[M]): void => void connection.sendNotification(method, params);
  return {
    findings: (document, of, notice) => {
      const places = [-1, ...document.book.tunes.keys()];
      const all = places.flatMap((tune) => of(tune).map((finding) => diagnosticOf(document, tune, finding)));
      const over = all.length - mostFindings;
      const told = over > 0 ? [...all.slice(0, mostFindings), said(`${over} more findings in this file are not shown.`)] : all;
      const diagnostics = notice === null ? told : [said(notice), ...told];
      void connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics });
    },
    scene: (document, tune, revision, state, views) => send('bullfiddle/scene', { views, scene: sceneOf(document, tune, revision, state) }),
    plan: (document, tune, revision, state, views) => {
      if (state.plan) send('bullfiddle/plan', { views, news: planNews(document, tune, revision, { ...state, plan: state.plan }) });
    },
    nothing: (uri, views, message) => send('bullfiddle/nothing', { views, uri, message }),
  };
}

/** Something to say of the file as a whole, on its first line. */
const said = (message: string): Diagnostic => ({
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
  severity: DiagnosticSeverity.Information,
  code: 'file.limits',
  source: 'bullfiddle',
  message,
});
