// The sheet: a scene drawn as systems, in slices, kept from one scene to the next. The last good picture stays while the text is broken.
import { headroom, tabRoom } from '../../server/src/drawing/index.ts';
import {
  drawTune,
  guarded,
  keptByKey,
  parse,
  type SheetItem,
  type SheetSystem,
  type SheetWords,
} from '../../server/src/engraving/index.ts';
import type { Look, Plan, Scene, SceneFinding } from '../messages.ts';
import { carriedFindings, carriedPlans } from './carried.ts';
import { html, text } from './dom.ts';
import { figureWidths } from './figure.ts';
import { nextTask, painted } from './frame.ts';
import { patchChildren } from './patch.ts';
import { pageMeasure } from './ruler.ts';
import { type Dress, makeView, type SystemView } from './system-view.ts';

/** Width of a staff in units of the engraving. */
export const staffWidth = 740;

export interface Sheet {
  /** Draws a scene; resolves when it stands in the page, to false if a newer one took its place. */
  show(scene: Scene, look: Look): Promise<boolean>;
  /** Draws a few notes out of sight: the library's first drawing in a page is slow, whatever it draws. */
  warm(): void;
  /** Puts a plan on the scene that is shown. */
  plan(plans: readonly Plan[], findings: readonly SceneFinding[]): void;
  readonly views: readonly SystemView[];
  readonly scene: Scene | null;
  readonly plans: readonly Plan[];
  readonly findings: readonly SceneFinding[];
}

/** A slice of drawing in ms: long enough for a system, short enough that keys are not held up. */
const slice = 12;
/** What is drawn of a new tune is shown whenever it has grown by this factor. */
const growth = 3;

interface Drawn {
  readonly items: readonly SheetItem[];
}

/** The view of each system: its own if it has one, else one whose system is gone, else a new one. */
function viewsFor(views: readonly SystemView[], items: readonly SheetItem[]): (item: SheetSystem) => SystemView {
  const wanted = new Set(items.map((item) => (item.kind === 'system' ? item.kept : null)));
  const own = new Map(views.map((view) => [view.kept, view]));
  const free = views.filter((view) => !wanted.has(view.kept));
  return (item) => own.get(item.kept) ?? free.shift() ?? makeView(item);
}

export function makeSheet(root: HTMLElement, say: (message: string | null) => void): Sheet {
  const measure = pageMeasure();
  const heading = html('h1');
  const systems = html('div', { class: 'systems' });
  root.append(heading, systems);
  let wordsOf = new Map<string, HTMLElement>();
  let run = 0;
  let drawn: Drawn = { items: [] };
  let scene: Scene | null = null;
  let dress: Dress = { plans: [], findings: [], look: { density: 'all', bassVoices: [] }, width: staffWidth };
  let views: SystemView[] = [];

  function wordsElement(words: SheetWords, at: number, used: Map<string, HTMLElement>): HTMLElement {
    const key = `${at} ${words.role} ${words.text}`;
    const element = wordsOf.get(key) ?? html('p', { class: words.role }, text(words.text));
    used.set(key, element);
    return element;
  }

  function viewElement(item: SheetSystem, viewFor: (item: SheetSystem) => SystemView): Element {
    const view = viewFor(item);
    view.update(item, dress);
    views.push(view);
    view.number(views.length);
    return view.element;
  }

  function place(items: readonly SheetItem[]): void {
    const viewFor = viewsFor(views, items);
    views = [];
    const used = new Map<string, HTMLElement>();
    const elements = items.map((item, at) => (item.kind === 'words' ? wordsElement(item, at, used) : viewElement(item, viewFor)));
    wordsOf = used;
    patchChildren(systems, elements);
  }

  async function show(next: Scene, look: Look): Promise<boolean> {
    const mine = ++run;
    const parsed = parse(next.engraving, next.notes);
    if (!parsed.ok) {
      say(`This is the last picture that could be drawn. The text as it stands stops the engraving: ${parsed.failed.message}`);
      return true;
    }
    const first = scene === null || scene.uri !== next.uri || scene.tune !== next.tune;
    const items: SheetItem[] = [];
    const options = { width: staffWidth, tabRoom, headroom, bassVoices: next.bassVoices };
    const drawing = drawTune(parsed.value, options, keptByKey(drawn.items), measure);
    const { bassVoices } = next;
    const last = scene ?? next;
    const nextDress: Dress = {
      plans: next.plans ?? carriedPlans(last, dress.plans, next),
      findings: next.plans === null ? [...next.findings, ...carriedFindings(last, dress.findings, next)] : next.findings,
      look: { density: look.density, bassVoices, figures: figureWidths() },
      width: staffWidth,
    };
    const take = (): void => {
      scene = next;
      dress = nextDress;
      drawn = { items };
      if (heading.textContent !== next.title) heading.textContent = next.title;
      systems.classList.toggle('columns', look.layout === 'columns');
      root.classList.toggle('wide', look.layout === 'columns');
      place(items);
    };
    let shown = 0;
    for (let done = false; !done; ) {
      const until = performance.now() + slice;
      while (!done && performance.now() < until) {
        const step = guarded('draw', () => drawing.next());
        if (!step.ok) {
          say(`This is the last picture that could be drawn. The text as it stands stops the engraving: ${step.failed.message}`);
          return true;
        }
        done = step.value.done === true;
        if (step.value.value !== undefined) items.push(step.value.value);
      }
      if (done) break;
      if (first && items.length >= shown * growth) {
        take();
        shown = items.length;
        await painted();
      } else await nextTask();
      if (mine !== run) return false;
    }
    take();
    say(null);
    return true;
  }

  return {
    show,
    warm() {
      const parsed = parse({ text: 'X:1\nL:1/8\nK:D clef=bass\n"D"D,2(F,G,) A,2A,4|]\n', toSource: [] }, []);
      const options = { width: staffWidth, tabRoom, headroom, bassVoices: [] };
      if (parsed.ok && scene === null) guarded('draw', () => [...drawTune(parsed.value, options, new Map(), measure)]);
    },
    plan(plans, findings) {
      dress = { ...dress, plans, findings };
      place(drawn.items);
    },
    get views() {
      return views;
    },
    get scene() {
      return scene;
    },
    get plans() {
      return dress.plans;
    },
    get findings() {
      return dress.findings;
    },
  };
}
