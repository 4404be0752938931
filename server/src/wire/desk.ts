// The desk where documents are worked on: what to do first after a change, what to tell and when.
import type { PlanStage } from '../arrangement/types.ts';
import type { Finding } from '../checks/check.ts';
import { headerFindings } from '../checks/index.ts';
import type { Revision } from '../engraving/types.ts';
import type { Analysis, TuneState } from './analysis.ts';
import { tuneAt } from './convert.ts';
import type { Documents, OpenDocument } from './documents.ts';
import type { Host } from './host.ts';
import type { Push } from './push.ts';
import type { Job, Scheduler } from './scheduler.ts';
import type { Settings } from './settings.ts';
import type { Views } from './views.ts';

/** Text longer than this is read but not judged. */
export const mostText = 2_000_000;
/** A plan ready within this many ms goes along with its scene; a later one follows by itself. */
const planWait = 10;
/** While a search lasts longer than this (ms), the findings that need none are shown without it. */
const findingsWait = 250;

export interface Desk {
  /** A document was opened or changed, or its settings were. */
  work(document: OpenDocument): void;
  /** A panel turned to a document. */
  show(document: OpenDocument): void;
  closed(uri: string): void;
  /** The plan of a tune and the findings that rest on it, as soon as they are there; null if the text changes before. */
  planned(document: OpenDocument, tune: number): Promise<Planned | null>;
}

export interface Planned {
  readonly plan: PlanStage;
  readonly findings: readonly Finding[];
}

interface Tools {
  readonly host: Host;
  readonly documents: Documents;
  readonly settings: Settings;
  readonly analysis: Analysis;
  readonly scheduler: Scheduler;
  readonly views: Views;
  readonly push: Push;
}

export function makeDesk(tools: Tools): Desk {
  const { documents, settings, analysis, scheduler } = tools;
  const waiting = new Map<string, ((planned: Planned | null) => void)[]>();
  const release = (key: string, planned: Planned | null): void => {
    const resolves = waiting.get(key) ?? [];
    waiting.delete(key);
    for (const resolve of resolves) resolve(planned);
  };
  const releaseAll = (uri: string): void => {
    for (const key of [...waiting.keys()]) if (key.startsWith(`${uri}#`)) release(key, null);
  };
  const put = (key: string, urgency: number, begins: Job['begins'], pieces: Generator<void, void>): void =>
    scheduler.put({ key, urgency, begins, step: () => pieces.next().done === true });

  const work = (document: OpenDocument): void => {
    releaseAll(document.uri);
    scheduler.drop(`${document.uri}#`);
    put(`${document.uri}#all`, 1, 'when-quiet', wholeDocument(tools, document));
  };
  return {
    work,
    show: (document) => put(`${document.uri}#shown`, 0, 'at-once', shownTunes(tools, document)),
    closed: (uri) => {
      scheduler.drop(`${uri}#`);
      releaseAll(uri);
    },
    planned: (document, tune) => {
      const key = `${document.uri}#plan:${tune}`;
      return new Promise((resolve) => {
        waiting.set(key, [...(waiting.get(key) ?? []), resolve]);
        const tell = (state: TuneState): void => {
          if (state.plan) release(key, { plan: state.plan, findings: state.findings });
        };
        if (documents.get(document.uri) !== document) return release(key, null);
        put(key, -1, 'at-once', analysis.work(document, settings.of(document.uri), tune, 'any-plan', tell));
      });
    },
  };
}

/** The edited tune first, then those that panels show, then the rest from the top. */
function inOrder(document: OpenDocument, views: Views): readonly number[] {
  const shown = views.tunesOf(document).filter((tune) => tune >= 0);
  const all = document.book.tunes.map((_, tune) => tune);
  const edited = tuneAt(document, document.touched).tune;
  return [...new Set([...(edited >= 0 ? [edited] : []), ...shown, ...all])];
}

function* wholeDocument(tools: Tools, document: OpenDocument): Generator<void, void> {
  const { host, analysis, push, views } = tools;
  if (document.text.length > mostText) {
    const limit = (mostText / 1e6).toFixed(0);
    push.findings(
      document,
      () => [],
      `This file is over ${limit} MB: it is outlined and folded, but not checked, fingered or drawn. Split it into books.`,
    );
    push.nothing(document.uri, views.on(document.uri), `This file is over ${limit} MB and is not drawn.`);
    return;
  }
  const header = headerFindings(document.book, tools.settings.of(document.uri));
  const found: (readonly Finding[] | undefined)[] = [];
  const start = host.now();
  let told = start;
  const tell = (): void => {
    push.findings(document, (tune) => (tune < 0 ? header : (found[tune] ?? analysis.last(document.book.tunes[tune]!.tree) ?? [])), null);
    told = host.now();
  };
  nothingShown(tools, document);
  for (const tune of inOrder(document, views)) {
    for (const _ of tuneAndScene(tools, document, tune, (state) => (found[tune] = state.findings))) {
      if (host.now() - told > findingsWait) tell();
      yield;
    }
    if (told === start) tell();
    yield;
  }
  tell();
}

function* shownTunes(tools: Tools, document: OpenDocument): Generator<void, void> {
  nothingShown(tools, document);
  for (const tune of tools.views.tunesOf(document)) if (tune >= 0) yield* tuneAndScene(tools, document, tune, () => {});
}

function nothingShown({ push, views }: Tools, document: OpenDocument): void {
  if (document.book.tunes.length > 0) return;
  push.nothing(
    document.uri,
    views.on(document.uri),
    'There is no tune in this file yet. A tune begins with a line X:1, and its music after a line K: with the key.',
  );
}

/** Works on one tune, and sends its scene to the panels that look at it: with the plan if that is quick, else the plan after it. */
function* tuneAndScene(tools: Tools, document: OpenDocument, tune: number, tell: (state: TuneState) => void): Generator<void, void> {
  const { host, settings, analysis, push, views } = tools;
  const revision: Revision = { document: document.version, settings: settings.version };
  const watchers = views.of(document, tune);
  const start = host.now();
  let latest: TuneState | null = null;
  let sent: 'none' | 'scene' | 'plan' = watchers.length > 0 ? 'none' : 'plan';
  const send = (state: TuneState): void => {
    if (sent === 'none') push.scene(document, tune, revision, state, watchers);
    else push.plan(document, tune, revision, state, watchers);
    sent = state.settled ? 'plan' : 'scene';
  };
  const hear = (state: TuneState): void => {
    latest = state;
    tell(state);
    if (state.settled && sent !== 'plan') send(state);
  };
  const wanted = watchers.length > 0 ? 'plan' : 'findings';
  for (const _ of analysis.work(document, settings.of(document.uri), tune, wanted, hear)) {
    if (sent === 'none' && latest && host.now() - start > planWait) send(latest);
    yield;
  }
}
