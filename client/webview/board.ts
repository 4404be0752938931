// The fingerboard panel under the sheet: the hand for the note at the caret, or the one that sounds.
import { type Board, boardHeight, boardOf, boardWidth, drawBoard, spokenPlace } from '../../server/src/drawing/index.ts';
import type { Plan } from '../messages.ts';
import { html, svg, text } from './dom.ts';
import { paintShape } from './paint.ts';

type PlanNote = Plan['notes'][number];

export interface BoardPanel {
  readonly element: HTMLElement;
  /** Shows the hand for a note of the plans; the panel is hidden while no plan has the note. */
  show(plans: readonly Plan[], note: number | null): void;
}

const wordsOf = (note: PlanNote): string =>
  note.places.map((place) => `${spokenPlace(place, note)}${place.stop > 0 ? `, ${Math.round(place.mm)} mm from the nut` : ''}`).join('; ');

function found(plans: readonly Plan[], id: number | null): { readonly plan: Plan; readonly note: PlanNote } | null {
  for (const plan of plans) {
    const note = plan.notes.find((each) => each.id === id || each.tied.includes(id ?? -1));
    if (note !== undefined) return { plan, note };
  }
  return null;
}

export function makeBoard(): BoardPanel {
  const picture = svg('svg', { class: 'fingerboard marks', role: 'img' });
  const words = html('p', { class: 'words' });
  const element = html('aside', { class: 'board', 'aria-label': 'Fingerboard' }, picture, words);
  const boards = new WeakMap<Plan, Board>();
  element.hidden = true;
  // What the panel covers is out of view to all that scrolls, the focus included.
  new ResizeObserver(() => {
    document.documentElement.style.scrollPaddingBottom = `${element.offsetHeight}px`;
  }).observe(element);

  function boardFor(plan: Plan): Board {
    let board = boards.get(plan);
    if (board === undefined) {
      board = boardOf(plan);
      boards.set(plan, board);
    }
    return board;
  }

  return {
    element,
    show(plans, id) {
      const at = found(plans, id);
      element.hidden = at === null || at.note.places.length === 0;
      if (at === null || element.hidden) return;
      const board = boardFor(at.plan);
      const said = wordsOf(at.note);
      picture.setAttribute('viewBox', `0 0 ${boardWidth(board).toFixed(1)} ${boardHeight(board)}`);
      picture.setAttribute('aria-label', said);
      picture.replaceChildren(...drawBoard(board, at.note).map(paintShape));
      words.replaceChildren(text(said));
    },
  };
}
