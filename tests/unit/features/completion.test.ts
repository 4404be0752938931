// Offers at the caret.
import { describe, expect, it } from 'vitest';
import type { CompletionItem } from '../../../server/src/features/completion/item.ts';
import { pinCompletions } from '../../../server/src/features/completion/pins.ts';
import { wordCompletions } from '../../../server/src/features/completion/words.ts';
import { costWords } from '../../../server/src/features/shared/places.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { ask, stageOf, tuneOf, withCaret } from './support.ts';

/** The labels offered, in order, as far as they are wanted. */
function checkWords(marked: string, wanted: readonly string[]): void {
  const { text, at } = withCaret(tuneOf(marked));
  const labels = ask(wordCompletions, text, at).map((item) => item.label);
  expect(labels.slice(0, wanted.length)).toEqual(wanted);
  if (wanted.length === 0) expect(labels).toEqual([]);
}

/** What the part costs after an offer is taken. */
const costAfter = (text: string, item: CompletionItem): number | null =>
  stageOf(applyEdits(text, [{ span: item.span, insert: item.insert }])).fingered[0]!.plan.cost;

/** The first offer with this label, and the text after taking it. */
function checkPin(marked: string, label: string, after: string): void {
  const { text, at } = withCaret(tuneOf(marked));
  const items = ask(pinCompletions, text, at);
  const item = items.find((one) => one.label === label);
  expect(items.map((one) => one.label)).toContain(label);
  expect(item!.span.from).toBeLessThanOrEqual(at);
  expect(item!.span.to).toBeGreaterThanOrEqual(at);
  const edits = [{ span: item!.span, insert: item!.insert }, ...item!.extra].sort((a, b) => a.span.from - b.span.from);
  expect(applyEdits(text, edits)).toBe(tuneOf(after));
}

describe('word completions', () => {
  it('offers fields at the start of a header line', () => checkWords('X:1\n$0\nK:D\nD,|', ['X:', 'T:']));
  it('offers only body fields among the notes', () => checkWords('D,4|\nP$0', ['T:', 'R:', 'M:']));
  it('offers inline fields after a bracket', () => checkWords('D,4|[$0', ['R:', 'M:']));
  it('offers keys, then clefs', () => {
    checkWords('X:1\nK:$0\n', ['D', 'G', 'A']);
    checkWords('X:1\nK:D $0\n', ['clef=bass', 'clef=bass-8']);
  });
  it('offers meters, unit lengths, tempos', () => {
    checkWords('X:1\nM:$0\nK:D\n', ['C|', '4/4']);
    checkWords('X:1\nL:$0\nK:D\n', ['1/8', '1/4']);
    checkWords('X:1\nQ:$0\nK:D\n', ['1/2=60', '1/2=80']);
  });
  it('offers instructions, their keys, and the values of a key', () => {
    checkWords('X:1\nI:$0\nK:D\n', ['bullfiddle', 'linebreak']);
    checkWords('X:1\nI:bullfiddle $0\nK:D\n', ['part', 'tuning']);
    checkWords('X:1\nI:bullfiddle part=$0\nK:D\n', ['bass', 'melody']);
    checkWords('X:1\nI:bullfiddle part=bass $0\nK:D\n', ['tuning', 'strings']);
  });
  it('offers decorations after an exclamation mark', () => checkWords('D,4!$0', ['0', '1', '2', '3', '4', 'thumb']));
  it('offers nothing in comments and quotes', () => {
    checkWords('D,4 % !$0', []);
    checkWords('D,4 "^su$0"', []);
  });
});

describe('pin completions', () => {
  it('lists places easiest first, each with its cost and what follows', () => {
    const { text, at } = withCaret(tuneOf('E,2 $0F,2 G,2 A,2|'));
    const items = ask(pinCompletions, text, at);
    expect(items[0]).toMatchObject({ label: 'D 4 with finger 4', detail: 'as easy as any' });
    expect(items[0]!.explanation).toMatch(/^The hand stays in I position\. Next: /);
    expect(items.at(-1)!.detail).toMatch(/shifts dearer$/);
  });
  it('writes string and finger before the note, from before it and from behind it', () => {
    checkPin('E,2 $0F,2 G,2 A,2|', 'A 9 with finger 4', 'E,2 !4!!sulA!F,2 G,2 A,2|');
    checkPin('E,2 F,2$0 G,2 A,2|', 'A 9 with finger 4', 'E,2 !4!!sulA!F,2 G,2 A,2|');
  });
  it('takes out the half-typed decoration', () => checkPin('E,2 !4$0F,2 G,2|', 'D 4 with finger 4', 'E,2 !4!!sulD!F,2 G,2|'));
  it('takes both exclamation marks where the editor closed them', () =>
    checkPin('E,2 !$0!F,2 G,2|', 'D 4 with finger 4', 'E,2 !4!!sulD!F,2 G,2|'));
  it('replaces a pin that says otherwise', () => checkPin('E,2 !2!$0F,2 G,2|', 'D 4 with finger 4', 'E,2 !4!!sulD!F,2 G,2|'));
  it('offers a way out of a passage that no hand plays', () =>
    checkPin('X:1\nL:1/4\nK:C clef=bass\n(^G,!sulG!$0B,)\n', 'D 9 with finger 4', 'X:1\nL:1/4\nK:C clef=bass\n(^G,!sulD!!4!B,)\n'));
  it('says truly what each place costs', () => {
    const text = tuneOf('E,2(F,G,) A,B,CD|!4!F,2 G,2 D4|');
    for (const wanted of ['F,G', 'B,CD', 'G,2 D4', 'D4|']) {
      const at = text.indexOf(wanted);
      const [best, ...others] = ask(pinCompletions, text, at).map((item) => ({ item, cost: costAfter(text, item) }));
      for (const { item, cost } of others) expect(item.detail, `${wanted} ${item.label}`).toBe(costWords(cost! - best!.cost!));
    }
  });
  it('writes pins of a double stop inside the brackets', () =>
    checkPin('$0[D,A,]2 E,2|', 'D open and G 2 with finger 1', '[!0!D,!1!!sulG!A,]2 E,2|'));
  it('offers nothing before a rest or on another line', () => {
    const { text, at } = withCaret(tuneOf('E,2 $0z2 F,4|'));
    expect(ask(pinCompletions, text, at)).toEqual([]);
  });
});
