// The other places for a note: asked of the host, shown as a list beside the stop, the chosen one sent back.
import type { PlaceChoice, Plan, Scene, ToPage } from '../messages.ts';
import { html, text } from './dom.ts';
import { post } from './host.ts';

type Answer = Extract<ToPage, { kind: 'places' }>;

/** A head of a note, as it stands on the sheet. */
export interface Question {
  readonly scene: Scene;
  readonly plans: readonly Plan[];
  readonly note: number;
  readonly head: number;
  readonly anchor: Element;
}

export interface Places {
  /** Asks for the places of a head; the list opens beside `anchor` when they come. */
  ask(question: Question): void;
  answer(message: Answer): void;
  close(): void;
}

interface Asked extends Question {
  readonly ask: number;
}

/** Why there is nothing to choose: places are weighed against the whole of a voice, so a note that no hand plays leaves none to weigh. */
function noneText({ plans, note }: Question): string {
  const plan = plans.find(({ notes }) => notes.some(({ id, tied }) => id === note || tied.includes(note)));
  return plan?.notes.some(({ places }) => places.length === 0)
    ? 'No other places can be weighed while the tune has notes that no hand plays. Mend the marked ones first.'
    : 'There is no other place for this note on this instrument.';
}

/** Cost in shifts: 1,000 milli-units are about one shift of two semitones. */
const costText = (regret: number): string => (regret === 0 ? 'best' : `+${(regret / 1000).toFixed(1)}`);

const fingerText = (finger: string): string => (finger === 'T' ? 'thumb' : finger === '0' ? 'open' : `finger ${finger}`);

const placeText = ({ string, stop, finger }: PlaceChoice): string =>
  stop === 0 && finger === '0' ? `${string} string, open` : `${string} string, stop ${stop}, ${fingerText(finger)}`;

function choiceButton(choice: PlaceChoice, choose: () => void): HTMLElement {
  const button = html(
    'button',
    { type: 'button' },
    html('span', { class: 'place' }, text(placeText(choice))),
    html('span', { class: 'cost' }, text(costText(choice.regret))),
    html('span', { class: 'effect' }, text(choice.effect)),
  );
  button.addEventListener('click', choose);
  return button;
}

/** The choice a key leads to from choice `at` of `count`: arrows and Tab go round, Home and End to the ends; null for any other key. */
function choiceAfter({ key, shiftKey }: KeyboardEvent, at: number, count: number): number | null {
  if (key === 'ArrowDown' || (key === 'Tab' && !shiftKey)) return (at + 1) % count;
  if (key === 'ArrowUp' || key === 'Tab') return (at + count - 1) % count;
  return key === 'Home' ? 0 : key === 'End' ? count - 1 : null;
}

function walkList(list: HTMLElement, event: KeyboardEvent): void {
  const buttons = [...list.querySelectorAll('button')];
  const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
  const next = buttons.length === 0 ? null : choiceAfter(event, at, buttons.length);
  if (next === null) return;
  buttons[next]?.focus();
  event.preventDefault();
}

/** Air between a list and what it belongs to, and the window's edge, in pixels. */
const air = 4;

/** Puts a list under its note, or over it where there is more room; within the window from side to side. */
function place(list: HTMLElement, note: DOMRect): void {
  const { clientWidth, clientHeight } = document.documentElement;
  const below = note.bottom + air;
  const above = note.top - air - list.offsetHeight;
  const top = below + list.offsetHeight > clientHeight && above >= 0 ? above : below;
  const left = Math.max(2 * air, Math.min(note.left, clientWidth - list.offsetWidth - 2 * air));
  list.style.left = `${left + window.scrollX}px`;
  list.style.top = `${top + window.scrollY}px`;
}

export function makePlaces(): Places {
  let asked: Asked | null = null;
  let open: HTMLElement | null = null;
  let counter = 0;

  function close(): void {
    const { activeElement } = document;
    const inside = open?.contains(activeElement) === true;
    open?.remove();
    open = null;
    if (inside && asked?.anchor instanceof SVGElement) asked.anchor.focus();
  }

  function show(question: Asked, choices: readonly PlaceChoice[]): void {
    close();
    const { scene, note, head } = question;
    const buttons = choices.map((choice) =>
      choiceButton(choice, () => {
        post({ kind: 'choose', uri: scene.uri, tune: scene.tune, note, head, choice, revision: scene.revision });
        close();
      }),
    );
    const empty = html('p', {}, text(noneText(question)));
    const list = html(
      'div',
      { class: 'places', role: 'dialog', 'aria-label': 'Other places for this note', tabindex: -1 },
      ...(buttons.length > 0 ? buttons : [empty]),
    );
    list.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') {
        close();
        event.preventDefault();
      } else walkList(list, event);
      // What the list has used is no key of the editor's; its other keys (to another file, to the text) stay so.
      if (event.defaultPrevented) event.stopPropagation();
    });
    document.body.append(list);
    place(list, question.anchor.getBoundingClientRect());
    open = list;
    (buttons[0] ?? list).focus();
  }

  return {
    ask(question) {
      const { scene, note, head } = question;
      asked = { ...question, ask: ++counter };
      post({ kind: 'ask-places', ask: counter, uri: scene.uri, tune: scene.tune, note, head, revision: scene.revision });
    },
    answer(message) {
      if (asked !== null && message.ask === asked.ask) show(asked, message.choices);
    },
    close,
  };
}
