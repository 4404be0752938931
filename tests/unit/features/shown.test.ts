// What is shown in and over the text: hints, signatures, the line over a bass part.
import { describe, expect, it } from 'vitest';
import { barHints } from '../../../server/src/features/hints-bar.ts';
import { placeHints } from '../../../server/src/features/hints-places.ts';
import { lens } from '../../../server/src/features/lens.ts';
import { signature } from '../../../server/src/features/signature.ts';
import { ask, tuneOf, withCaret } from './support.ts';

/** The music with its hints printed into it. */
function checkHints(places: 'off' | 'changes' | 'all', body: string, wanted: string): void {
  const text = tuneOf(body);
  const settings = { hints: { places, barSum: 'on' } } as const;
  const hints = [...ask(barHints, text, null, settings), ...ask(placeHints, text, null, settings)].sort((a, b) => b.at - a.at);
  let shown = text;
  for (const hint of hints) shown = `${shown.slice(0, hint.at)}{${hint.text}}${shown.slice(hint.at)}`;
  expect(shown.slice(shown.indexOf('bass\n') + 5).trimEnd()).toBe(wanted);
}

function checkSignature(marked: string, active: string): void {
  const { text, at } = withCaret(tuneOf(marked));
  const found = ask(signature, text, at);
  expect(found?.parts[found.active]?.label).toBe(active);
}

describe('hints', () => {
  it('sum up an open bar', () => checkHints('off', 'D,8|E,2 F,4', 'D,8|E,2 F,4{3/4 of 4/4}'));
  it('are silent on a full or closed bar', () => checkHints('off', 'D,8|E,4 F,4', 'D,8|E,4 F,4'));
  it('show places', () => checkHints('all', 'D,2E,2 G,4|', '{D0}D,2{D2:1}E,2 {G0}G,4|'));
  it('show places where the hand moves', () => checkHints('changes', 'E,2F,2 !4!!sulG!D4|', '{D2:1}E,2F,2 !4!!sulG!{G7:4}D4|'));
});

describe('signatures', () => {
  it('follow the caret through K:', () => {
    checkSignature('X:1\nK:$0\n', 'tonic');
    checkSignature('X:1\nK:D m$0\n', 'mode');
    checkSignature('X:1\nK:D clef=$0\n', 'clef=bass');
  });
  it('follow the caret through V: and Q:', () => {
    checkSignature('X:1\nV:1 name="B$0\nK:D\n', 'name="Bass"');
    checkSignature('X:1\nQ:1/2=$0\nK:D\n', '=beats a minute');
  });
  it('know the keys of I:bullfiddle', () => checkSignature('X:1\nI:bullfiddle part=bass mensur=$0\nK:D\n', 'mensur='));
});

describe('the line over a bass part', () => {
  it('tells range, key, shifts and top tempo', () => {
    const text = 'X:1\nT:t\nM:4/4\nL:1/8\nQ:1/4=160\nK:D clef=bass\nF,,DF,,D F,,DF,,D|F,,8|\n';
    const [found] = ask(lens, text, null);
    expect(found!.text).toMatch(/^sounds F♯1 to D3 · key D · \d+ shifts? · comfortable to 1\/4=\d+, limit \d+ · hardest: bar \d$/);
    expect(text.slice(found!.from, found!.to)).toBe('T:t');
  });
  it('leaves out a top tempo far beyond the one that is asked for', () => {
    const text = 'X:1\nT:t\nM:4/4\nL:1/8\nQ:1/4=60\nK:D clef=bass\nF,,DF,,D F,,DF,,D|F,,8|\n';
    expect(ask(lens, text, null)[0]!.text).toMatch(/\d shifts · hardest/);
    expect(ask(lens, text.replace('=60', '=160'), null)[0]!.text).toMatch(/limit \d+ · hardest/);
  });
  it('says where no hand plays', () => {
    const [found] = ask(lens, 'X:1\nT:t\nM:4/4\nL:1/4\nK:C clef=bass\nE,4|(!sulG!^G,!sulG!B,)z2|\n', null);
    expect(found!.text).toMatch(/1 passage no hand plays.*hardest: bar 2$/);
  });
  it('is not there for a melody', () => expect(ask(lens, 'X:1\nK:D\nD|\n', null)).toEqual([]));
});
