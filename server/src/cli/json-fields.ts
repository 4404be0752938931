// Reading a JSON file that a person wrote: typed fields out, and for each that cannot be used its place and the remedy.
import { nearest } from './arguments.ts';

/** An object of the file. Each method gives null where the field is absent or, after telling, unusable. */
export interface Fields {
  text(key: string, what: string): string | null;
  number(key: string, least: number, most: number): number | null;
  /** `read` gives null, after telling, for an element that cannot be used. */
  list<T>(key: string, what: string, read: (value: unknown, place: string) => T | null): readonly T[] | null;
}

export type Tell = (place: string, message: string) => void;

/** The file's value, or why it is no JSON, with the line where that can be known. */
export function parsedJson(
  text: string,
): { readonly kind: 'json'; readonly value: unknown } | { readonly kind: 'bad'; readonly message: string } {
  try {
    return { kind: 'json', value: JSON.parse(text.replace(/^\uFEFF/, '')) };
  } catch (problem) {
    const message = String((problem as Error).message);
    const at = /at position (\d+)/.exec(message);
    const line = at === null ? '' : `line ${text.slice(0, Number(at[1])).split('\n').length}: `;
    return { kind: 'bad', message: `${line}this is no valid JSON (${message.replace(/ in JSON at position.*| \(line.*/s, '')}).` };
  }
}

/** The fields of an object at `place`; tells of fields that are not among `known`. null, after telling, if it is no object. */
export function fieldsOf(value: unknown, place: string, known: readonly string[], tell: Tell): Fields | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    tell(place, `this must be an object with ${known.join(', ')}.`);
    return null;
  }
  const record = value as Readonly<Record<string, unknown>>;
  const within = (key: string): string => (place === '' ? key : `${place}.${key}`);
  for (const key of Object.keys(record)) if (!known.includes(key)) tell(within(key), unknownField(key, known));
  const given = (key: string): unknown => (Object.hasOwn(record, key) ? record[key] : undefined);
  return {
    text(key, what) {
      const found = given(key);
      if (found === undefined || typeof found === 'string') return found ?? null;
      return refused(tell, within(key), `this must be ${what}, in quotes.`);
    },
    number(key, least, most) {
      const found = given(key);
      if (found === undefined || isNumberIn(found, least, most)) return found ?? null;
      return refused(tell, within(key), `this must be a whole number from ${least} to ${most}.`);
    },
    list(key, what, read) {
      const found = given(key);
      if (found === undefined) return null;
      if (!Array.isArray(found)) return refused(tell, within(key), `this must be a list of ${what}, in [ ].`);
      return found.map((each, i) => read(each, `${within(key)}[${i}]`)).filter((each) => each !== null);
    },
  };
}

const isNumberIn = (value: unknown, least: number, most: number): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value >= least && value <= most;

function unknownField(key: string, known: readonly string[]): string {
  const near = nearest(key, known);
  return `no such field. ${near === null ? `Known are ${known.join(', ')}.` : `Did you mean "${near}"?`}`;
}

function refused(tell: Tell, place: string, message: string): null {
  tell(place, message);
  return null;
}
