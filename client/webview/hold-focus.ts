// Keeps a reader's place among the notes when an edit takes away the very mark that had the focus.
import { giveTabTo, spokenMarks } from './spoken.ts';
import type { SystemView } from './system-view.ts';

export interface FocusHolder {
  /** To be called when the sheet has been drawn again: the mark now at the lost one's place gets the focus. */
  mend(views: readonly SystemView[]): void;
}

/** `views` gives what stands on the sheet when a mark gets the focus. */
export function makeFocusHolder(root: HTMLElement, views: () => readonly SystemView[]): FocusHolder {
  let held: { readonly element: Element; readonly at: number } | null = null;

  root.addEventListener('focusin', ({ target }) => {
    const at = spokenMarks(views()).findIndex(({ element }) => element === target);
    held = at < 0 || !(target instanceof Element) ? null : { element: target, at };
  });
  root.addEventListener('focusout', () => {
    const left = held;
    // Of a mark that is being removed this is known only when it is gone.
    queueMicrotask(() => {
      if (held === left && left?.element.isConnected === true) held = null;
    });
  });

  return {
    mend(now) {
      if (held === null || held.element.isConnected) return;
      const marks = spokenMarks(now);
      const mark = marks[Math.min(held.at, marks.length - 1)];
      held = null;
      if (mark === undefined || document.activeElement !== document.body) return;
      giveTabTo(mark.element);
      mark.element.focus({ preventScroll: true });
    },
  };
}
