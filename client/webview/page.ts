// The preview page: takes scenes, plans and the caret from the host, draws them, and reports what the reader does.
import { type FromPage, isOf, type ToPage } from '../messages.ts';
import { makeAnnouncer } from './announce.ts';
import { makeBoard } from './board.ts';
import { makeCaretMark } from './caret-mark.ts';
import { html, text } from './dom.ts';
import { painted } from './frame.ts';
import { makeFocusHolder } from './hold-focus.ts';
import { listen, post, writeState } from './host.ts';
import { makePlaces } from './places.ts';
import { makeControls } from './player/controls.ts';
import { makePlayer } from './player/player.ts';
import { makePractised } from './player/practised.ts';
import { sampleRoots } from './player/samples.ts';
import { makeSheet } from './sheet.ts';
import { markOf, offerFocus, type SpokenMark, walk, wayOf } from './spoken.ts';
import { markNote, notesOn, reveal } from './sync/caret.ts';
import { clicked } from './sync/click.ts';
import { followZoom } from './zoom.ts';

type Revision = Extract<FromPage, { kind: 'painted' }>['revision'];

const root = document.getElementById('sheet')!;
const notice = html('p', { class: 'notice', role: 'status' });
const announcer = makeAnnouncer();
root.before(notice, announcer.element);

const say = (message: string | null): void => {
  if (notice.textContent === (message ?? '')) return;
  notice.replaceChildren(...(message === null ? [] : [text(message)]));
};

const places = makePlaces();
const player = makePlayer({
  onNote: (note) => {
    const placed = notesOn(sheet.views).find(({ scene }) => scene.id === note) ?? null;
    markNote(placed, 'playing');
    if (placed === null) return;
    board.show(sheet.plans, note);
    reveal(placed);
  },
  onEnd: () => controls.ended(),
  onSamplesWanted: () => post({ kind: 'ask-samples', roots: sampleRoots }),
});
const practised = makePractised();
const controls = makeControls(() => player, practised);
root.append(controls.element);
const sheet = makeSheet(root, say);
const board = makeBoard();
root.append(board.element);
const focusHolder = makeFocusHolder(root, () => sheet.views);
const caret = makeCaretMark(sheet, (note) => board.show(sheet.plans, note));

async function report(what: 'scene' | 'plan', uri: string, revision: Revision, began: number): Promise<void> {
  await painted();
  // For whoever looks at the page from outside: which text it shows.
  root.dataset.version = String(revision.document);
  post({ kind: 'painted', uri, revision, what, ms: performance.now() - began });
}

function drawn(findings: 'all' | 'some'): void {
  caret.show();
  focusHolder.mend(sheet.views);
  offerFocus(root);
  const { scene } = sheet;
  if (scene === null) return;
  controls.show(scene, sheet.plans);
  if (findings === 'all') announcer.take({ scene, findings: sheet.findings });
  else announcer.wait();
}

/** A fault of our own: told to the host, and said. The host waits for word of the painting all the same. */
function failed(where: string, error: unknown): void {
  const message = error instanceof Error ? error.message : String(error);
  say(`The sheet could not be drawn: ${message}. What you see may be older than the text.`);
  post({ kind: 'failed', where, message });
}

async function takeScene(message: Extract<ToPage, { kind: 'scene' }>): Promise<void> {
  const began = performance.now();
  const { scene, look } = message;
  writeState({ uri: scene.uri, tune: scene.tune });
  try {
    if (!(await sheet.show(scene, look))) return;
    // Those that rest on the plan come with it.
    drawn(scene.plans === null ? 'some' : 'all');
    // Laid out while the screen's turn is awaited: the frame is shorter by it.
    root.getBoundingClientRect();
  } catch (error) {
    failed('scene', error);
  }
  await report('scene', scene.uri, scene.revision, began);
}

async function takePlan(message: Extract<ToPage, { kind: 'plan' }>): Promise<void> {
  const began = performance.now();
  const { scene } = sheet;
  if (scene !== null && isOf(scene, message)) {
    try {
      sheet.plan(message.plans, message.findings);
      drawn('all');
    } catch (error) {
      failed('plan', error);
    }
  }
  await report('plan', message.uri, message.revision, began);
}

function take(message: ToPage): void {
  switch (message.kind) {
    case 'scene':
      void takeScene(message);
      return;
    case 'plan':
      void takePlan(message);
      return;
    case 'caret':
      announcer.attend();
      caret.take(message);
      return;
    case 'nothing':
      say(message.message);
      return;
    case 'places':
      places.answer(message);
      return;
    case 'play':
      if (message.action === 'stop') controls.stop();
      else controls.toggle();
      return;
    case 'samples':
      player.takeSamples(message.samples);
      return;
    case 'practice':
      practised.recall(message.uri, message.practice);
      return;
  }
}

/** Sends the reader's caret to a stretch of the text; its echo must not move the page. */
function goTo({ from, to }: { readonly from: number; readonly to: number }, focus: 'take' | 'keep', event: Event): void {
  const { scene } = sheet;
  if (scene === null) return;
  caret.expect({ from, to });
  const { uri, tune, revision } = scene;
  post({ kind: 'reveal', uri, tune, from, to, revision, focus, age: performance.now() - event.timeStamp });
}

const headOf = (mark: SpokenMark): number => {
  const note = sheet.scene?.notes.find((each) => each.id === mark.shape.note);
  return Math.max(0, note?.heads.findIndex((head) => head.from === mark.shape.source?.from) ?? 0);
};

function askPlaces(mark: SpokenMark): void {
  const { scene, plans } = sheet;
  const { note } = mark.shape;
  if (scene !== null && note !== null) places.ask({ scene, plans, note, head: headOf(mark), anchor: mark.element });
}

root.addEventListener('click', (event) => {
  const mark = markOf(sheet.views, event.target instanceof Element ? event.target.closest('[role="button"]') : null);
  places.close();
  const target = sheet.scene === null ? null : clicked(sheet.scene, sheet.views, event);
  if (target !== null) goTo(target, 'keep', event);
  if (mark !== null) askPlaces(mark);
});

root.addEventListener('keydown', (event) => {
  const mark = markOf(sheet.views, document.activeElement);
  if (mark === null) return;
  const way = wayOf(event.key);
  if (way !== null) walk(sheet.views, way);
  else if (event.key === 'Enter' && mark.shape.source !== null) goTo(mark.shape.source, 'take', event);
  else if (event.key === ' ') askPlaces(mark);
  else return;
  event.preventDefault();
});

window.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') {
    places.close();
    controls.stop();
  }
});

followZoom(root);
window.addEventListener('error', (event) => post({ kind: 'failed', where: 'page', message: event.message }));
listen(take);
post({ kind: 'ready' });
// While the host makes the scene.
sheet.warm();
