// Offers that need the text alone: fields, keys, clefs, meters, tempos, decorations, instructions with their keys and values.
import { declarationKeys } from '../../arrangement/index.ts';
import type { Span } from '../../text/span.ts';
import type { Feature } from '../feature.ts';
import { decorationEntries } from '../vocabulary/decorations.ts';
import type { Entry } from '../vocabulary/entry.ts';
import { fieldEntries } from '../vocabulary/fields.ts';
import { instructionEntries } from '../vocabulary/instructions.ts';
import * as words from '../vocabulary/keys.ts';
import { contextAt } from './context.ts';
import type { CompletionItem, Completions } from './item.ts';

/** The question is the caret. */
export const wordCompletions: Feature<'text', number, Completions> = {
  needs: 'text',
  answer(view, at) {
    const context = contextAt(view, at);
    switch (context.kind) {
      case 'line-start':
        return fieldItems(context.where, context.span, (letter) => `${letter}:`);
      case 'inline-start':
        return fieldItems('inline', context.span, (letter) => `[${letter}:`);
      case 'field':
        return fieldValues(context.letter, context.before, context.span);
      case 'instruction':
        return instructionItems(context.before, context.span);
      case 'decoration':
        return decorationEntries.map((entry) => ({ ...item(entry, context.span, 'decoration'), ...written(`!${entry.word}!`) }));
      case 'music':
      case 'none':
        return [];
    }
  },
};

const written = (text: string): Pick<CompletionItem, 'insert' | 'filter'> => ({ insert: text, filter: text });

const item = (entry: Entry, span: Span, kind: CompletionItem['kind']): CompletionItem => ({
  label: entry.word,
  kind,
  detail: entry.meaning,
  explanation: '',
  span,
  extra: [],
  ...written(entry.word),
});

function fieldItems(where: 'file' | 'tune' | 'body' | 'inline', span: Span, write: (letter: string) => string): Completions {
  return fieldEntries
    .filter((entry) => entry.where.includes(where))
    .map((entry) => ({ ...item(entry, span, 'field'), label: `${entry.word}:`, ...written(write(entry.word)) }));
}

const valuesByLetter: Readonly<Record<string, readonly Entry[]>> = {
  M: words.meterEntries,
  L: words.unitEntries,
  Q: words.tempoEntries,
  R: words.rhythmEntries,
  V: [...words.clefEntries, ...words.propertyEntries],
};

function fieldValues(letter: string, before: string, span: Span): Completions {
  const list = letter === 'K' ? keyValues(before) : letter === 'V' && !/\S\s/.test(before) ? [] : (valuesByLetter[letter] ?? []);
  return list.map((entry) => item(entry, span, 'value'));
}

/** The key first, then mode, clef and properties. */
function keyValues(before: string): readonly Entry[] {
  if (!/\S\s/.test(before)) return [...words.keyEntries, ...words.clefEntries];
  const modes = /^\s*[A-G][#b]?\s+\S*$/.test(before) ? words.modeEntries : [];
  return [...words.clefEntries, ...modes, ...words.propertyEntries];
}

function instructionItems(before: string, span: Span): Completions {
  const name = /^([\w-]+)\s/.exec(before)?.[1];
  if (name === undefined) return instructionEntries.map((entry) => item(entry, span, 'value'));
  if (name !== 'bullfiddle') return valueItems(instructionEntries.find((entry) => entry.word === name)?.values ?? [], span);
  const key = /([\w-]+)=[^\s]*$/.exec(before)?.[1];
  if (key !== undefined) return valueItems(declarationKeys.find((one) => one.key === key)?.values ?? [], span);
  const used = new Set([...before.matchAll(/([\w-]+)=/g)].map((match) => match[1]));
  return declarationKeys
    .filter((one) => !used.has(one.key))
    .map((one) => ({ ...item({ word: one.key, meaning: one.meaning }, span, 'key'), ...written(`${one.key}=`) }));
}

const valueItems = (values: readonly string[], span: Span): Completions => values.map((word) => item({ word, meaning: '' }, span, 'value'));
