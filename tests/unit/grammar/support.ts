// The TextMate grammar as an editor runs it, and the classes that grammar and tree are compared by.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import type { MusicItem } from '../../../server/src/abc/tree/items.ts';
import type { Book, Line } from '../../../server/src/abc/tree/tree.ts';

const require = createRequire(import.meta.url);
const oniguruma: typeof import('vscode-oniguruma') = require('vscode-oniguruma');
const textmate: typeof import('vscode-textmate') = require('vscode-textmate');

export type Class = 'comment' | 'field' | 'note' | 'bar' | 'decoration' | 'text' | null;

const path = resolve(import.meta.dirname, '../../../syntaxes/abc.tmLanguage.json');

export async function loadGrammar(): Promise<import('vscode-textmate').IGrammar> {
  const wasm = readFileSync(join(dirname(require.resolve('vscode-oniguruma')), 'onig.wasm'));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(readFileSync(path, 'utf8'), path),
  });
  return (await registry.loadGrammar('source.abc'))!;
}

/** The class of every character, line by line, as the grammar colours it. */
export function grammarClasses(grammar: import('vscode-textmate').IGrammar, lines: readonly string[]): readonly Class[][] {
  let state = textmate.INITIAL;
  return lines.map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    const classes: Class[] = new Array(line.length).fill(null);
    for (const { startIndex, endIndex, scopes } of tokens) classes.fill(classOfScopes(scopes.join(' ')), startIndex, endIndex);
    return classes;
  });
}

function classOfScopes(scopes: string): Class {
  if (/comment\.line/.test(scopes)) return 'comment';
  if (/string\.unquoted\.(typeset|free)/.test(scopes)) return 'text';
  if (/meta\.field|meta\.directive/.test(scopes)) return 'field';
  if (/string\.quoted/.test(scopes)) return 'text';
  if (/keyword\.control\.bar/.test(scopes)) return 'bar';
  if (/decoration/.test(scopes)) return 'decoration';
  return /meta\.note/.test(scopes) ? 'note' : null;
}

/** The class of every character, line by line, as the tree reads it; `undefined` where the tree sees something that is not music. */
export function treeClasses(book: Book): readonly { readonly text: string; readonly classes: readonly (Class | undefined)[] }[] {
  const lines = [...book.header.lines, ...book.tunes.flatMap(({ tree }) => tree.lines)];
  return lines.map(({ line }) => {
    const text = line.text.replace(/[\r\n]+$/, '');
    return { text, classes: lineClasses(line, text) };
  });
}

function lineClasses(line: Line, text: string): (Class | undefined)[] {
  const classes: (Class | undefined)[] = new Array(text.length).fill(null);
  switch (line.kind) {
    case 'comment':
      return classes.fill('comment');
    case 'typeset':
    case 'free':
      return classes.fill('text');
    case 'blank':
      return classes;
    case 'field':
    case 'directive':
    case 'lyrics':
    case 'symbols':
    case 'field-continuation': {
      classes.fill('field');
      const comment = /(?<!\\)%/.exec(text.slice(2));
      return comment === null ? classes : classes.fill('comment', comment.index + 2);
    }
    case 'music':
      for (const item of line.items) fillItem(classes, item);
      return classes;
  }
}

const classOfItem: Readonly<Partial<Record<MusicItem['kind'], Class>>> = {
  comment: 'comment',
  inline: 'field',
  note: 'note',
  bar: 'bar',
  ending: 'bar',
  decoration: 'decoration',
  quoted: 'text',
};

function fillItem(classes: (Class | undefined)[], item: MusicItem): void {
  if (item.kind === 'chord' || item.kind === 'grace') for (const inner of item.inner) fillItem(classes, inner);
  else if (item.kind === 'unknown' || item.kind === 'macro') classes.fill(undefined, item.from, item.to);
  else classes.fill(classOfItem[item.kind] ?? null, item.from, item.to);
}
