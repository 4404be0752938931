// Outline, folding, selections, highlights, colours: what the text is made of.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { treeStage } from '../../../server/src/arrangement/index.ts';
import { folding } from '../../../server/src/features/folding.ts';
import { headerOf, matchesSearch } from '../../../server/src/features/headers.ts';
import { highlights } from '../../../server/src/features/highlights.ts';
import { handHighlights } from '../../../server/src/features/highlights-hand.ts';
import { selection } from '../../../server/src/features/selection.ts';
import { type SymbolNode, symbols } from '../../../server/src/features/symbols.ts';
import { tokens } from '../../../server/src/features/tokens.ts';
import { ask, texts, tuneOf, withCaret } from './support.ts';

const outline = (node: SymbolNode): string =>
  node.children.length === 0 ? node.name : `${node.name}[${node.children.map(outline).join(' ')}]`;

function checkOutline(text: string, wanted: string): void {
  expect(outline(ask(symbols, text, null))).toBe(wanted);
}

/** Spans from the caret outwards, as texts. */
function checkSelection(marked: string, wanted: readonly string[]): void {
  const { text, at } = withCaret(tuneOf(marked));
  expect(texts(text, ask(selection, text, at)).slice(0, wanted.length)).toEqual(wanted);
}

/** The highlighted texts with their kind. */
function checkHighlights(feature: typeof highlights | typeof handHighlights, marked: string, wanted: readonly string[]): void {
  const { text, at } = withCaret(tuneOf(marked));
  const found = feature === highlights ? ask(highlights, text, at) : ask(handHighlights, text, at);
  expect(found.map((one) => `${one.kind} ${text.slice(one.from, one.to)}`)).toEqual(wanted);
}

describe('outline', () => {
  it('puts voices into parts where parts come first', () =>
    checkOutline('X:1\nT:Reel\nK:D\nP:A\n[V:1]D4|\n[V:2]F4|\nP:B\nD4|\n', 'Reel[Part A[Voice 1 Voice 2] Part B]'));
  it('puts parts into voices where voices come first', () =>
    checkOutline('X:1\nT:Reel\nK:D\nV:1\nP:A\nD4|\nP:B\nD4|\nV:2\nF4|\n', 'Reel[Voice 1[Part A Part B] Voice 2]'));
  it('names a tune without a title by its number', () => checkOutline('X:7\nK:D\nD|\n', 'Tune 7'));
  it('works on a broken tune', () => checkOutline('X:1\nT:Broken\nP:A\nK:\n[[[D!!|:::|P:\nP:B\n', 'Broken[Part B]'));
});

describe('folding', () => {
  it('folds tune, header, parts and runs of lyrics', () => {
    const text = 'X:1\nT:t\nK:D\nP:A\nD4|\nw:la\nw:lo\nP:B\nF4|\n\nfree\n';
    expect(ask(folding, text, null).map((fold) => `${fold.kind} ${JSON.stringify(text.slice(fold.from, fold.to))}`)).toEqual([
      'tune "X:1\\nT:t\\nK:D\\nP:A\\nD4|\\nw:la\\nw:lo\\nP:B\\nF4|"',
      'header "X:1\\nT:t\\nK:D"',
      'section "P:A\\nD4|\\nw:la\\nw:lo"',
      'lyrics "w:la\\nw:lo"',
      'section "P:B\\nF4|"',
    ]);
  });
});

describe('selections', () => {
  it('grow from note to beam, beat, bar, line', () =>
    checkSelection('D,E,F,G, A,$0B,CD|E,8|', ['B,', 'A,B,CD', 'D,E,F,G, A,B,CD|', 'D,E,F,G, A,B,CD|E,8|']));
  it('grow out of a chord', () => checkSelection('[D,$0A,]4 E,4|', ['A,', '[D,A,]4', '[D,A,]4 E,4|']));
  it('begin with the line in a field', () => checkSelection('X:1\nT:Re$0el\nK:D\nD|\n', ['T:Reel']));
});

describe('highlights', () => {
  it('show both ends of a slur', () => checkHighlights(highlights, '$0(D,E,F,)G,|', ['slur (', 'slur )']));
  it('show the notes of a tie', () => checkHighlights(highlights, 'D,4$0-|D,4-|D,4|E,8|', ['tie D,4', 'tie D,4', 'tie D,4']));
  it('show both ends of a repeat', () => checkHighlights(highlights, 'E,8|:D,8|E,8$0:|', ['repeat |:', 'repeat :|']));
  it('show the same pitch elsewhere', () => checkHighlights(highlights, 'D,2$0E,2 D,2E,2|', ['pitch E,2', 'pitch E,2']));
  it('show the notes of the same hand', () =>
    checkHighlights(handHighlights, '$0E,2F,2 A,2!4!!sulG!d2|', ['hand E,2', 'hand F,2', 'hand A,2']));
});

describe('colours', () => {
  it('name each piece, and never overlap', () => {
    const text = tuneOf('|:!4!D,2"G"(E,^F,) z % hm');
    const found = ask(tokens, text, null);
    const music = text.indexOf('|:');
    expect(found.filter((one) => one.from >= music).map((one) => `${one.type} ${text.slice(one.from, one.to)}`)).toEqual([
      'bar |:',
      'pin !4!',
      'note D,2',
      'text "G"',
      'slur (',
      'note E,',
      'note ^F,',
      'slur )',
      'rest z',
      'comment % hm',
    ]);
    for (const [i, token] of found.entries()) expect(token.from).toBeGreaterThanOrEqual(found[i - 1]?.to ?? 0);
  });
});

describe('the folder index', () => {
  it('finds a tune by title, key, kind and version', () => {
    const text = 'X:3\nT:Towpath\nC:Tarrow\nR:reel\nI:bullfiddle tune=towpath version=low\nK:G clef=bass\nG,|\n';
    const header = headerOf(treeStage(readBook(text), 0).tree);
    expect(header).toMatchObject({ title: 'Towpath', number: '3', key: 'G', rhythm: 'reel', version: 'low', slug: 'towpath' });
    expect(matchesSearch(header, 'tow low')).toBe(true);
    expect(matchesSearch(header, 'tow high')).toBe(false);
  });
});
