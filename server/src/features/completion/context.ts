// What is being typed at the caret, told from the line up to it: half-typed text has no reliable tree.
import type { Offset, Span } from '../../text/span.ts';
import type { TextView } from '../feature.ts';
import { bareText, lineIndexAt } from '../shared/locate.ts';

/** `typed` is the word up to the caret and `span` what an offer replaces; both relative to the view. */
export type Context =
  | { readonly kind: 'line-start'; readonly where: 'file' | 'tune' | 'body'; readonly span: Span }
  | { readonly kind: 'inline-start'; readonly span: Span }
  | { readonly kind: 'field'; readonly letter: string; readonly before: string; readonly span: Span }
  | { readonly kind: 'instruction'; readonly before: string; readonly span: Span }
  | { readonly kind: 'decoration'; readonly span: Span }
  | { readonly kind: 'music' }
  | { readonly kind: 'none' };

export function contextAt(view: TextView, at: Offset): Context {
  const index = lineIndexAt(view.tree.lines, at);
  const line = view.tree.lines[index];
  const start = line?.at ?? 0;
  const text = line === undefined ? '' : bareText(line.line);
  const before = text.slice(0, at - start);
  if (isComment(before, line?.line.kind)) return { kind: 'none' };
  const where = view.tree.kind === 'header' ? 'file' : index < view.tree.bodyStart ? 'tune' : 'body';
  return fieldContext(before, at) ?? lineStartContext(before, where, at) ?? musicContext(before, text.slice(at - start), at, where);
}

const isComment = (before: string, kind: string | undefined): boolean =>
  kind === 'typeset' || kind === 'comment' || (/(^|[^\\%])%(?!%)/.test(before) && !before.startsWith('%%'));

const last = (at: Offset, word: string): Span => ({ from: at - word.length, to: at });

/** After `K:`, `[K:`, `I:` or `%%`. */
function fieldContext(before: string, at: Offset): Context | null {
  const instruction = /^(?:I:\s*|%%)(.*)$/.exec(before) ?? /\[I:([^\]]*)$/.exec(before);
  if (instruction !== null)
    return { kind: 'instruction', before: instruction[1]!, span: last(at, /[^\s=]*$/.exec(before)![0].replace(/^(I:|%%)/, '')) };
  const field = /^([A-Za-z]):(.*)$/.exec(before) ?? /\[([A-Za-z]):([^\]|]*)$/.exec(before);
  if (field === null) return null;
  const [, letter, value] = field;
  return { kind: 'field', letter: letter!, before: value!, span: last(at, /\S*$/.exec(value!)![0]) };
}

function lineStartContext(before: string, where: 'file' | 'tune' | 'body', at: Offset): Context | null {
  if (!/^[A-Za-z]?$/.test(before)) return null;
  return where === 'body' && /[A-Ga-gxyz]/.test(before) ? null : { kind: 'line-start', where, span: last(at, before) };
}

function musicContext(before: string, after: string, at: Offset, where: 'file' | 'tune' | 'body'): Context {
  if (where !== 'body') return { kind: 'none' };
  const plain = before.replace(/"(?:[^"\\]|\\.)*"/g, (quoted) => ' '.repeat(quoted.length));
  if (plain.includes('"')) return { kind: 'none' };
  const open = openDecoration(plain);
  if (open !== null) return { kind: 'decoration', span: { from: at - open.length, to: after.startsWith('!') ? at + 1 : at } };
  const inline = /\[[A-Za-z]?$/.exec(plain);
  return inline !== null && !/\[[A-Ga-g]$/.test(plain) ? { kind: 'inline-start', span: last(at, inline[0]) } : { kind: 'music' };
}

/** The half-typed decoration before the caret with its `!`; null if the last one is closed. */
function openDecoration(before: string): string | null {
  const parts = before.split('!');
  return parts.length % 2 === 0 && /^[^\s|]*$/.test(parts.at(-1)!) ? `!${parts.at(-1)}` : null;
}
