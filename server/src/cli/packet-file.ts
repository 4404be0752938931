// The file of a lesson packet: what it may hold, and what is said of what it may not.
import type { BarRange } from '../handout/index.ts';
import { fieldsOf, type Tell } from './json-fields.ts';
import { type ListFile, type ListText, listText, nameOf, type TuneName } from './list-file.ts';
import { readBars } from './practice.ts';

/** null where a choice is left to the program. */
export interface PacketEntry {
  readonly name: TuneName;
  readonly bars: readonly BarRange[] | null;
  readonly tempos: readonly number[] | null;
  readonly times: number | null;
  readonly rest: number | null;
  readonly note: string | null;
}

export interface PacketFile extends ListFile<PacketEntry> {
  readonly note: string | null;
}

const known = ['player', 'date', 'note', 'tunes'] as const;
const knownOfTune = ['file', 'version', 'number', 'bars', 'tempos', 'times', 'rest', 'note'] as const;

/** The packet, and each thing in the file that cannot be used, as `place: message`. A packet with problems is not made. */
export const readPacket = (text: string): ListText<PacketFile> =>
  listText(text, known, entryOf, (fields) => ({ note: fields.text('note', 'a text') }));

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
