// The file of a booklet: what it may hold, and what is said of what it may not.
import { fieldsOf, type Tell } from './json-fields.ts';
import { type ListFile, type ListText, listText, nameOf, type TuneName } from './list-file.ts';

export interface BookletEntry {
  /** One tune, or two to stand on facing pages. */
  readonly names: readonly TuneName[];
  /** The key it is printed in; null for its own. */
  readonly key: string | null;
  readonly times: number;
}

export interface BookletFile extends ListFile<BookletEntry> {
  readonly title: string | null;
}

const known = ['title', 'player', 'date', 'tunes'] as const;
const knownOfTune = ['file', 'version', 'facing', 'number', 'key', 'times'] as const;

/** The booklet, and each thing in the file that cannot be used, as `place: message`. A booklet with problems is not made. */
export const readBooklet = (text: string): ListText<BookletFile> =>
  listText(text, known, entryOf, (fields) => ({ title: fields.text('title', 'a title') }));

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
