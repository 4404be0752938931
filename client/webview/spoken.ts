// Walking the notes by keyboard: one stop at a time can be reached with Tab, arrows go on from there.
import type { Shape } from '../../server/src/drawing/index.ts';
import { meaningOf } from './paint.ts';
import type { SystemView } from './system-view.ts';

/** A spoken mark with the element that carries the focus. */
export interface SpokenMark {
  readonly view: SystemView;
  readonly shape: Shape;
  readonly element: SVGElement;
}

/** All spoken marks in the order of the page. Marks are painted one a shape, in order. */
export const spokenMarks = (views: readonly SystemView[]): SpokenMark[] =>
  views.flatMap((view) =>
    view.shapes().flatMap((shape, i) => (shape.spoken === null ? [] : [{ view, shape, element: meaningOf(view.marks.children[i]!) }])),
  );

export const markOf = (views: readonly SystemView[], element: Element | null): SpokenMark | null =>
  element === null ? null : (spokenMarks(views).find((mark) => mark.element === element) ?? null);

/** Lets Tab reach one mark: the given one. */
export function giveTabTo(wanted: Element): void {
  for (const old of document.querySelectorAll('.marks [tabindex="0"]')) old.setAttribute('tabindex', '-1');
  wanted.setAttribute('tabindex', '0');
}

/** Sees to it that Tab reaches a mark: the one before if it still stands, else the first. */
export function offerFocus(root: Element): void {
  if (root.querySelector('.marks [tabindex="0"]') !== null) return;
  const first = root.querySelector('.marks [role="button"]');
  if (first !== null) giveTabTo(first);
}

type Way = 'next' | 'before' | 'next-system' | 'system-before' | 'first' | 'last';

const ways: Readonly<Record<string, Way>> = {
  ArrowRight: 'next',
  ArrowLeft: 'before',
  ArrowDown: 'next-system',
  ArrowUp: 'system-before',
  Home: 'first',
  End: 'last',
};

export const wayOf = (key: string): Way | null => ways[key] ?? null;

/** Index of the mark to go to from mark `at`; `systems[i]` numbers the system of mark i. */
export function stepTo(way: Way, at: number, systems: readonly number[]): number {
  const end = systems.length - 1;
  switch (way) {
    case 'next':
      return Math.min(at + 1, end);
    case 'before':
      return Math.max(at - 1, 0);
    case 'first':
      return 0;
    case 'last':
      return end;
    case 'next-system': {
      const next = systems.findIndex((system) => system > systems[at]!);
      return next < 0 ? end : next;
    }
    case 'system-before': {
      const before = systems.findLast((system) => system < systems[at]!);
      return before === undefined ? 0 : systems.indexOf(before);
    }
  }
}

/** Moves the focus one step from the focused mark. */
export function walk(views: readonly SystemView[], way: Way): void {
  const marks = spokenMarks(views);
  const at = marks.findIndex((mark) => mark.element === document.activeElement);
  if (at < 0) return;
  const systems = marks.map((mark) => views.indexOf(mark.view));
  const target = marks[stepTo(way, at, systems)]!.element;
  giveTabTo(target);
  target.focus();
}
