// Instructions (`I:name rest`, `%%name rest`), and the keyed values of `I:bullfiddle`.
import type { Offset } from '../../text/span.ts';
import type { FieldValue, KeyedValue } from '../tree/fields.ts';

/** The name under which our own declarations stand; other readers skip it. */
export const OUR_INSTRUCTION = 'bullfiddle';

/** An instruction from its text, which begins at `from` of its line. */
export function readInstruction(text: string, from: Offset): Extract<FieldValue, { kind: 'instruction' }> {
  const name = /^[^\s]*/.exec(text)![0];
  const rest = text.slice(name.length);
  const keyed = name === OUR_INSTRUCTION ? readKeyed(rest, from + name.length) : [];
  return { kind: 'instruction', name: name.toLowerCase(), rest: rest.trim(), keyed };
}

/** `key=value` pairs; a value may stand in quotes. A word without `=` is a key with an empty value. */
function readKeyed(text: string, from: Offset): readonly KeyedValue[] {
  const found: KeyedValue[] = [];
  for (const match of text.matchAll(/([^\s="]+)(?:(=)(?:"([^"]*)"?|([^\s"]*)))?/g)) {
    const at = from + match.index;
    const key = match[1]!;
    const value = match[3] ?? match[4] ?? '';
    const valueAt = at + key.length + (match[2] ? 1 : 0) + (match[3] === undefined ? 0 : 1);
    found.push({ key, value, keySpan: { from: at, to: at + key.length }, valueSpan: { from: valueAt, to: valueAt + value.length } });
  }
  return found;
}
