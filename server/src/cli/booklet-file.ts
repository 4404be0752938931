// The file of a booklet: what it may hold, and what is said of what it may not.
import { fieldsOf, parsedJson, type Tell } from './json-fields.ts';
import { dateOf, nameOf, type TuneName } from './packet-file.ts';

export interface BookletEntry {
  /** One tune, or two to stand on facing pages. */
  readonly names: readonly TuneName[];
  /** The key that the tune must stand in; null for any. */
  readonly key: string | null;
  readonly times: number;
}

export interface BookletFile {
  readonly title: string | null;
  readonly player: string | null;
  readonly date: string | null;
  readonly tunes: readonly BookletEntry[];
}

const known = ['title', 'player', 'date', 'tunes'] as const;
const knownOfTune = ['file', 'version', 'facing', 'number', 'key', 'times'] as const;

/** The booklet, and each thing in the file that cannot be used, as `place: message`. A booklet with problems is not made. */
export function readBooklet(text: string): { readonly list: BookletFile | null; readonly problems: readonly string[] } {
  const problems: string[] = [];
  const tell: Tell = (place, message) => problems.push(place === '' ? message : `${place}: ${message}`);
  const json = parsedJson(text);
  if (json.kind === 'bad') return { list: null, problems: [json.message] };
  const fields = fieldsOf(json.value, '', known, tell);
  if (fields === null) return { list: null, problems };
  const tunes = fields.list('tunes', 'tunes', (value, place) => entryOf(value, place, tell));
  if (tunes === null || (tunes.length === 0 && problems.length === 0))
    tell('tunes', 'name at least one tune: "tunes": [{ "file": "tune.abc" }].');
  const booklet = {
    title: fields.text('title', 'a title'),
    player: fields.text('player', 'initials'),
    date: dateOf(fields, tell),
    tunes: tunes ?? [],
  };
  return { list: booklet, problems };
}

function entryOf(value: unknown, place: string, tell: Tell): BookletEntry | null {
  const fields = fieldsOf(value, place, knownOfTune, tell);
  if (fields === null) return null;
  const name = nameOf(fields, place, tell);
  const facing = fields.text('facing', 'the name of a version, like high');
  const entry = { key: fields.text('key', 'a key, like D or Am'), times: fields.number('times', 1, 20) ?? 1 };
  if (facing !== null && name?.version === null) tell(`${place}.facing`, 'say which "version" it faces.');
  if (name === null) return null;
  return { names: facing === null ? [name] : [name, { ...name, version: facing, number: null }], ...entry };
}
