// Language configuration and snippets: closing never fights bar lines, tuplets or slurs, and snippets are good tunes.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';

const json = (name: string) => JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../syntaxes', name), 'utf8'));
const language = json('language-configuration.json') as {
  autoClosingPairs: { open: string }[];
  comments: { lineComment: string };
  wordPattern: string;
};
const snippets = Object.entries(json('snippets.json') as Record<string, { body: string[] }>);

/** A snippet as it stands after it was inserted and left: first choices taken. */
const inserted = (body: readonly string[]): string =>
  body
    .join('\n')
    .replace(/\$\{\d+\|((?:\\.|[^|\\])*)\|\}/g, (_, choices: string) => choices.split(',')[0]!.replace(/\\(.)/g, '$1'))
    .replace(/\$\{\d+:((?:\\.|[^}\\])*)\}/g, '$1')
    .replace(/\$\d/g, '');

describe('language configuration', () => {
  it('closes quotes, braces and decorations, and nothing that begins a slur, tuplet, chord or bar line', () => {
    expect(language.autoClosingPairs.map((pair) => pair.open).sort()).toEqual(['!', '"', '{']);
  });
  it('comments lines out with a per cent sign', () => expect(language.comments.lineComment).toBe('%'));
  it('takes a beam for a word', () => {
    expect("^F,2G,'/2".match(new RegExp(language.wordPattern, 'g'))).toEqual(["^F,2G,'/2"]);
    expect('D,2!sulG!E,|'.match(new RegExp(language.wordPattern, 'g'))).toEqual(['D,2', '!sulG!', 'E,']);
  });
});

describe('snippets', () => {
  it.each(snippets)('%s gives text without errors', (_, { body }) => {
    const text = inserted(body);
    const whole = /^X:/.test(text) ? `${text}\nD,8|` : `X:1\nM:C|\nL:1/8\nK:D clef=bass\n${text}\n`;
    const errors = readBook(whole).tunes.flatMap(({ tree }) =>
      tree.lines.flatMap(({ line }) => line.errors.filter((error) => error.severity === 'error')),
    );
    expect(errors).toEqual([]);
  });
});
