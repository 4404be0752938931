// A file that lists tunes (a packet's, a booklet's): read, judged, and what is wrong in it said, so that nothing is made of half a list.
import type { Io } from './command.ts';
import { type Fields, fieldsOf, parsedJson, type Tell } from './json-fields.ts';
import { messageOf } from './sources.ts';

/** A tune named by its file and, where the file holds several, its version or number. */
export interface TuneName {
  /** As written: relative to the folder of the file that names it. */
  readonly file: string;
  readonly version: string | null;
  /** X: of the tune. */
  readonly number: number | null;
}

/** What every list holds. */
export interface ListFile<E> {
  readonly player: string | null;
  readonly date: string | null;
  readonly tunes: readonly E[];
}

/** A list as read, null where it is none at all, and what is wrong in it. */
export interface ListText<L> {
  readonly list: L | null;
  readonly problems: readonly string[];
}

/** Reads a list: its tunes by `entryOf`, the fields that only its kind has by `more`. */
export function listText<E, M extends object>(
  text: string,
  known: readonly string[],
  entryOf: (value: unknown, place: string, tell: Tell) => E | null,
  more: (fields: Fields) => M,
): ListText<ListFile<E> & M> {
  const problems: string[] = [];
  const tell: Tell = (place, message) => problems.push(place === '' ? message : `${place}: ${message}`);
  const json = parsedJson(text);
  if (json.kind === 'bad') return { list: null, problems: [json.message] };
  const fields = fieldsOf(json.value, '', known, tell);
  if (fields === null) return { list: null, problems };
  const tunes = fields.list('tunes', 'tunes', (value, place) => entryOf(value, place, tell));
  if (tunes === null || (tunes.length === 0 && problems.length === 0))
    tell('tunes', 'name at least one tune: "tunes": [{ "file": "tune.abc" }].');
  const list = { player: fields.text('player', 'initials'), date: dateOf(fields, tell), tunes: tunes ?? [], ...more(fields) };
  return { list, problems };
}

/** A day like 2026-01-31; null, after telling, for anything else. */
function dateOf(fields: Fields, tell: Tell): string | null {
  const date = fields.text('date', 'a day like 2026-01-31');
  if (date !== null && !/^\d{4}-\d{2}-\d{2}$/.test(date)) tell('date', 'this must be a day like 2026-01-31.');
  return date;
}

/** The tune that an object names; null, after telling, without a file. */
export function nameOf(fields: Fields, place: string, tell: Tell): TuneName | null {
  const file = fields.text('file', 'the name of a tune file');
  const name = { version: fields.text('version', 'the name of a version, like low'), number: fields.number('number', 0, 1_000_000) };
  if (file !== null && file !== '') return { file, ...name };
  tell(`${place}.file`, 'name the tune file, relative to the folder of this file.');
  return null;
}

/** The list, or null after saying why there is none. */
export async function readList<T>(
  path: string,
  read: (text: string) => ListText<T>,
  say: (message: string) => void,
  io: Io,
): Promise<T | null> {
  const text = await io.read(path).catch((problem: unknown) => {
    say(messageOf(problem));
    return null;
  });
  if (text === null) return null;
  const { list, problems } = read(text);
  for (const problem of problems) say(problem);
  return problems.length > 0 ? null : list;
}
