// Keeps the mark of the caret where the host says it is, without following the echo of the page's own clicks.
import type { ToPage } from '../messages.ts';
import type { Sheet } from './sheet.ts';
import { markNote, noteAt, notesOn, reveal } from './sync/caret.ts';

type Caret = Extract<ToPage, { kind: 'caret' }>;
type Span = { readonly from: number; readonly to: number };

export interface CaretMark {
  take(caret: Caret): void;
  /** Draws the mark again, after the sheet has changed. */
  show(): void;
  /** The caret will soon come to this span because the page sent it there. */
  expect(span: Span): void;
}

/** After this many ms a caret in the span that was sent is the reader's own. */
const echoTime = 1500;

/** `onNote` is told the note at the caret, null for none. */
export function makeCaretMark(sheet: Sheet, onNote: (note: number | null) => void): CaretMark {
  let caret: Caret | null = null;
  let sent: (Span & { readonly at: number }) | null = null;

  function show(): void {
    const { scene } = sheet;
    const ours = caret !== null && scene !== null && caret.uri === scene.uri && caret.tune === scene.tune;
    const placed = ours && caret !== null ? noteAt(notesOn(sheet.views), caret.offset) : null;
    markNote(placed, 'caret');
    onNote(placed?.scene.id ?? null);
  }

  return {
    show,
    take(next) {
      caret = next;
      show();
      const echo = sent !== null && performance.now() - sent.at < echoTime && next.offset >= sent.from && next.offset <= sent.to;
      sent = null;
      if (echo || next.reveal !== 'scroll' || next.uri !== sheet.scene?.uri || next.tune !== sheet.scene.tune) return;
      const placed = noteAt(notesOn(sheet.views), next.offset);
      if (placed !== null) reveal(placed);
    },
    expect(span) {
      sent = { ...span, at: performance.now() };
    },
  };
}
