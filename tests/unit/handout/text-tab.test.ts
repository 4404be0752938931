// Tab as text: every row where a player looks for it.
import { describe, expect, it } from 'vitest';
import { textTab } from '../../../server/src/handout/index.ts';
import { valueText } from '../../../server/src/handout/values.ts';
import { fullTune, handoutTunes, look } from '../../support/handout.ts';

const tune = (body: string, head = 'K:G clef=bass'): string => `X:1\nT:t\nM:4/4\nL:1/4\n${head}\n${body}\n`;
const tab = (text: string): string => textTab(handoutTunes(text)[0]!, { ...look, density: 'all' });
const row = (text: string, name: string): string => text.split('\n').find((line) => line.startsWith(name)) ?? '';

describe('textTab', () => {
  it('sets open strings on their lines, G on top (written G, D, A,, E,, are the open strings)', () => {
    const text = tab(tune('!0!G, !0!D, !0!A,, !0!E,,|]'));
    expect(row(text, 'G ')).toBe('G      |-0---------------||');
    expect(row(text, 'D ')).toBe('D      |-----0-----------||');
    expect(row(text, 'A ')).toBe('A      |---------0-------||');
    expect(row(text, 'E ')).toBe('E      |-------------0---||');
    expect(row(text, 'finger').replaceAll(' ', '')).toBe('finger0000');
    expect(row(text, 'value').trim()).toBe('value    q   q   q   q');
  });

  it('shows pins, hammer-on, pull-off, repeat and ending', () => {
    const text = tab(tune('|:!0!!sulD!D, (!1!!sulD!E,!4!!sulD!^F,) G,|1 (G,/!sulG!!0!G,/)z3:|2 G,4|]'));
    expect(row(text, 'D ')).toMatch(/0-+2-+h4/);
    expect(text).toContain('[1');
    expect(text).toContain('[2');
    expect(row(text, 'D ')).toContain(':|');
    expect(row(text, 'value')).toContain('rh.');
  });

  it('gives chords, words and letters of other scripts their rows', () => {
    const text = tab(fullTune);
    expect(text.split('\n')[0]).toBe('Žluť a σειρά, Широка');
    expect(row(text, 'words').replace(/ +/g, ' ')).toBe('words la- lo, we go a- down');
    expect(row(text, 'chord').replace(/ +/g, ' ')).toContain('chord G C7');
    expect(text).toContain('A studio, abc1234, 2026-01-31');
  });

  it('says what no hand plays, and where', () => {
    const text = tab(tune('D, E, (!sulG!G,!sulD!A,)|]'));
    expect(text).toMatch(/Bar 1: no hand plays this \(hammer\.crosses-strings\)/);
    expect(row(text, 'G ')).toContain('?');
  });

  it('names a melody and says why there is no tab', () => {
    expect(tab(tune('GABc|', 'K:G'))).toContain('No bass part here');
  });

  it('keeps control characters of a title from the terminal', () => {
    expect(tab('X:1\nT:a\u001b[31mb\nK:C clef=bass\nC,|\n')).not.toContain('\u001b');
  });
});

describe('valueText', () => {
  it.each([
    [1, 4, 'q'],
    [3, 8, 'q.'],
    [7, 16, 'q..'],
    [1, 12, 'e3'],
    [1, 20, 's5'],
    [5, 8, '5/8'],
    [2, 1, 'b'],
  ])('writes %i/%i as %s', (num, den, text) => {
    expect(valueText({ num, den })).toBe(text);
  });
});
