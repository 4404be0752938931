// The player's own moves between places of the text: what a click in a sheet asked for earlier must not be done over them.
import type { Stretch } from './revisions.ts';

export interface Moves {
  /** The caret was put somewhere: by the player, or by us where that was expected. */
  caret(uri: string, span: Stretch): void;
  /** A text came to the front. */
  front(uri: string): void;
  /** We bring this text to the front: that is no move of the player's. */
  expectFront(uri: string): void;
  /** We put the caret on this stretch. */
  expectCaret(uri: string, span: Stretch): void;
  /** Whether the player has moved after `time`, by the same clock. */
  since(time: number): boolean;
}

/** Carets of ours that are still to be heard of. The editor says nothing of one that stood there before. */
const mostExpected = 8;

const keyOf = (uri: string, { from, to }: Stretch): string => `${from} ${to} ${uri}`;

/** `now` in ms. */
export function makeMoves(now: () => number): Moves {
  let last = Number.NEGATIVE_INFINITY;
  let front = '';
  let expected: readonly string[] = [];
  return {
    caret(uri, span) {
      const at = expected.indexOf(keyOf(uri, span));
      if (at < 0) last = now();
      else expected = expected.slice(at + 1);
    },
    front(uri) {
      if (uri !== front) last = now();
      front = uri;
    },
    expectFront(uri) {
      front = uri;
    },
    expectCaret(uri, span) {
      expected = [...expected, keyOf(uri, span)].slice(-mostExpected);
    },
    since: (time) => last > time,
  };
}

/** What going to a place asks of the editor. */
export interface Way<Text, Editor> {
  readonly uri: string;
  open(): Promise<Text>;
  /** Where the place is in the text as it stands; null if that is not sure any more. */
  where(text: Text): Stretch | null;
  /** Brings the text to the front. */
  show(text: Text): Promise<Editor>;
  select(editor: Editor, span: Stretch): void;
}

/** Goes to the place that was clicked at `clicked`, unless the player has moved since: each step takes its time. */
export async function go<Text, Editor>(way: Way<Text, Editor>, moves: Moves, clicked: number): Promise<void> {
  const text = await way.open();
  if (moves.since(clicked) || way.where(text) === null) return;
  moves.expectFront(way.uri);
  const editor = await way.show(text);
  const span = moves.since(clicked) ? null : way.where(text);
  if (span === null) return;
  moves.expectCaret(way.uri, span);
  way.select(editor, span);
}
