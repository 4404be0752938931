// The file of a lesson packet: what it may hold, and what is said of what it may not.
import type { BarRange } from '../handout/index.ts';
import { type Fields, fieldsOf, parsedJson, type Tell } from './json-fields.ts';
import { readBars } from './practice.ts';

/** A tune named by its file and, where the file holds several, its version or number. */
export interface TuneName {
  /** As written: relative to the folder of the file that names it. */
  readonly file: string;
  readonly version: string | null;
  /** X: of the tune. */
  readonly number: number | null;
}

/** null where a choice is left to the program. */
export interface PacketEntry {
  readonly name: TuneName;
  readonly bars: readonly BarRange[] | null;
  readonly tempos: readonly number[] | null;
  readonly times: number | null;
  readonly rest: number | null;
  readonly note: string | null;
}

export interface PacketFile {
  readonly player: string | null;
  readonly date: string | null;
  readonly note: string | null;
  readonly tunes: readonly PacketEntry[];
}

const known = ['player', 'date', 'note', 'tunes'] as const;
const knownOfTune = ['file', 'version', 'number', 'bars', 'tempos', 'times', 'rest', 'note'] as const;

/** The packet, and each thing in the file that cannot be used, as `place: message`. A packet with problems is not made. */
export function readPacket(text: string): { readonly list: PacketFile | null; readonly problems: readonly string[] } {
  const problems: string[] = [];
  const tell: Tell = (place, message) => problems.push(place === '' ? message : `${place}: ${message}`);
  const json = parsedJson(text);
  if (json.kind === 'bad') return { list: null, problems: [json.message] };
  const fields = fieldsOf(json.value, '', known, tell);
  if (fields === null) return { list: null, problems };
  const tunes = fields.list('tunes', 'tunes', (value, place) => entryOf(value, place, tell));
  if (tunes === null || (tunes.length === 0 && problems.length === 0))
    tell('tunes', 'name at least one tune: "tunes": [{ "file": "tune.abc" }].');
  const packet = {
    player: fields.text('player', 'initials'),
    date: dateOf(fields, tell),
    note: fields.text('note', 'a text'),
    tunes: tunes ?? [],
  };
  return { list: packet, problems };
}

/** A day like 2026-01-31; null, after telling, for anything else. */
export function dateOf(fields: Fields, tell: Tell): string | null {
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

function entryOf(value: unknown, place: string, tell: Tell): PacketEntry | null {
  const fields = fieldsOf(value, place, knownOfTune, tell);
  if (fields === null) return null;
  const name = nameOf(fields, place, tell);
  const rest = {
    bars: fields.list('bars', 'bars like "3-4"', (bars, at) => barsOf(bars, at, tell)),
    tempos: fields.list('tempos', 'tempos in beats a minute', (tempo, at) => tempoOf(tempo, at, tell)),
    times: fields.number('times', 1, 20),
    rest: fields.number('rest', 0, 600),
    note: fields.text('note', 'a text'),
  };
  return name === null ? null : { name, ...rest };
}

function barsOf(value: unknown, place: string, tell: Tell): BarRange | null {
  const range = typeof value === 'string' || typeof value === 'number' ? readBars(String(value)) : null;
  if (range === null) tell(place, 'these must be bars like "3-4" or "7".');
  return range;
}

function tempoOf(value: unknown, place: string, tell: Tell): number | null {
  if (typeof value === 'number' && value >= 10 && value <= 400) return value;
  tell(place, 'this must be a tempo from 10 to 400 beats a minute.');
  return null;
}
