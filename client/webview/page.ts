// The preview page: takes scenes, plans and the caret from the host, draws them, and reports what the reader does.
import type { FromPage, ToPage } from '../messages.ts';
import { html, text } from './dom.ts';
import { listen, post, readState, writeState } from './host.ts';
import { makeSheet } from './sheet.ts';
import { markNote, noteAt, notesOn, reveal } from './sync/caret.ts';
import { clicked } from './sync/click.ts';

type Caret = Extract<ToPage, { kind: 'caret' }>;

const root = document.getElementById('sheet')!;
const notice = html('p', { class: 'notice', role: 'status' });
root.before(notice);

const say = (message: string | null): void => {
  notice.replaceChildren(...(message === null ? [] : [text(message)]));
};

const sheet = makeSheet(root, say);
let caret: Caret | null = null;
/** The span last sent to the text: its echo as a caret must not move the page. */
let sent: { readonly from: number; readonly to: number } | null = null;

function showCaret(): void {
  const { scene } = sheet;
  const ours = caret !== null && scene !== null && caret.uri === scene.uri && caret.tune === scene.tune;
  if (!ours || caret === null) {
    markNote(null, 'caret');
    return;
  }
  const placed = noteAt(notesOn(sheet.views), caret.offset);
  markNote(placed, 'caret');
  const echo = sent !== null && caret.offset >= sent.from && caret.offset <= sent.to;
  if (placed !== null && caret.reveal === 'scroll' && !echo) reveal(placed);
  sent = null;
}

/** Resolves when what stands in the document has been painted. */
const painted = (): Promise<void> =>
  new Promise((resolve) => {
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => resolve();
      port2.postMessage(null);
    });
  });

async function report(what: 'scene' | 'plan', uri: string, revision: Extract<FromPage, { kind: 'painted' }>['revision'], began: number) {
  await (document.hidden ? Promise.resolve() : painted());
  post({ kind: 'painted', uri, revision, what, ms: performance.now() - began });
}

async function takeScene(message: Extract<ToPage, { kind: 'scene' }>): Promise<void> {
  const began = performance.now();
  const { scene, look } = message;
  writeState({ uri: scene.uri, tune: scene.tune });
  if (!(await sheet.show(scene, look))) return;
  showCaret();
  await report('scene', scene.uri, scene.revision, began);
}

async function takePlan(message: Extract<ToPage, { kind: 'plan' }>): Promise<void> {
  const began = performance.now();
  const { scene } = sheet;
  if (scene !== null && scene.uri === message.uri && scene.tune === message.tune && sameRevision(scene.revision, message.revision)) {
    sheet.plan(message.plans, message.findings);
    showCaret();
  }
  await report('plan', message.uri, message.revision, began);
}

type Revision = Extract<FromPage, { kind: 'painted' }>['revision'];
const sameRevision = (a: Revision, b: Revision): boolean => a.document === b.document && a.settings === b.settings;

function take(message: ToPage): void {
  switch (message.kind) {
    case 'scene':
      void takeScene(message);
      return;
    case 'plan':
      void takePlan(message);
      return;
    case 'caret':
      caret = message;
      showCaret();
      return;
    case 'nothing':
      say(message.message);
      return;
    case 'places':
    case 'samples':
    case 'play':
      return;
  }
}

root.addEventListener('click', (event) => {
  const { scene } = sheet;
  const found = clicked(sheet.views, event);
  if (scene === null || found === null) return;
  const { from, to } = found.target;
  sent = { from, to };
  post({ kind: 'reveal', uri: scene.uri, tune: scene.tune, from, to, revision: scene.revision, focus: 'keep' });
});

root.style.setProperty('--zoom', String(readState().zoom));
window.addEventListener('error', (event) => post({ kind: 'failed', where: 'page', message: event.message }));
listen(take);
post({ kind: 'ready' });
