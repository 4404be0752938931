// A click in a sheet that is heeded late, against what the player has done meanwhile.
import { describe, expect, it } from 'vitest';
import { go, makeMoves, type Way } from '../../../client/src/preview/moves.ts';

const uri = 'file:///a.abc';
const place = { from: 10, to: 12 };

/** An editor whose steps do what the player does meanwhile; every event takes a ms. */
function bed() {
  let clock = 0;
  const moves = makeMoves(() => ++clock);
  const selected: string[] = [];
  const shown: string[] = [];
  const editor = (meanwhile: { readonly opening?: () => void; readonly showing?: () => void; readonly touched?: () => boolean }) => {
    const way: Way<string, string> = {
      uri,
      open: async () => {
        meanwhile.opening?.();
        return 'text';
      },
      where: () => (meanwhile.touched?.() === true ? null : place),
      show: async () => {
        shown.push(uri);
        moves.front(uri);
        meanwhile.showing?.();
        return 'editor';
      },
      select: (_, { from, to }) => {
        selected.push(`${from}-${to}`);
        moves.caret(uri, { from, to });
      },
    };
    return way;
  };
  /** The player clicks now. */
  const click = () => ++clock;
  return { moves, selected, shown, editor, click };
}

describe('going to what was clicked', () => {
  it('selects it, again and again: our own caret is no move of the player', async () => {
    const { moves, selected, editor, click } = bed();
    moves.caret(uri, { from: 3, to: 3 });
    for (let i = 0; i < 20; i++) await go(editor({}), moves, click());
    expect(selected).toHaveLength(20);
  });
  it('leaves the caret where the player has put it since', async () => {
    const { moves, selected, shown, editor, click } = bed();
    const clicked = click();
    moves.caret(uri, { from: 0, to: 0 });
    await go(editor({}), moves, clicked);
    expect([selected, shown]).toEqual([[], []]);
  });
  it('leaves it, too, when the player moves while the text is opened or brought to the front', async () => {
    const { moves, selected, editor, click } = bed();
    const move = (): void => moves.caret(uri, { from: 0, to: 0 });
    await go(editor({ opening: move }), moves, click());
    await go(editor({ showing: move }), moves, click());
    expect(selected).toEqual([]);
    await go(editor({}), moves, click());
    expect(selected).toEqual(['10-12']);
  });
  it('does not bring the text back when the player has turned to another', async () => {
    const { moves, selected, shown, editor, click } = bed();
    const clicked = click();
    moves.front('file:///b.abc');
    await go(editor({}), moves, clicked);
    expect([selected, shown]).toEqual([[], []]);
  });
  it('brings up a text that was not in front, and selects in it', async () => {
    const { moves, selected, shown, editor, click } = bed();
    moves.front('file:///b.abc');
    await go(editor({}), moves, click());
    expect([selected, shown]).toEqual([['10-12'], [uri]]);
  });
  it('heeds two quick clicks, the second before the editor has told of the first', async () => {
    const { moves, selected, click } = bed();
    const told: (() => void)[] = [];
    const slow = (from: number): Way<string, string> => ({
      uri,
      open: async () => 'text',
      where: () => ({ from, to: from + 1 }),
      show: async () => 'editor',
      select: (_, span) => {
        selected.push(String(span.from));
        told.push(() => moves.caret(uri, span));
      },
    });
    await go(slow(1), moves, click());
    const second = click();
    told.shift()?.();
    await go(slow(2), moves, second);
    told.shift()?.();
    await go(slow(3), moves, click());
    expect(selected).toEqual(['1', '2', '3']);
  });
  it('selects nothing when the place is edited while the text is brought to the front', async () => {
    const { moves, selected, editor, click } = bed();
    let typed = false;
    const typing = (): void => {
      typed = true;
    };
    await go(editor({ showing: typing, touched: () => typed }), moves, click());
    expect(selected).toEqual([]);
  });
});
