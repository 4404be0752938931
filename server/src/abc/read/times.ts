// Values of M:, L: and Q: (3.1.6 to 3.1.8).
import { LARGEST } from '../scan/numbers.ts';
import type { MeterValue, TempoValue } from '../tree/fields.ts';
import type { WrittenLength } from '../tree/items.ts';
import { plainText } from './plain-text.ts';

const FREE: MeterValue = { kind: 'none' };

/** The meter, or null if it cannot be read. Empty means free meter. */
export function readMeter(text: string): MeterValue | null {
  if (text === '' || /^none$/i.test(text)) return FREE;
  if (text === 'C') return { kind: 'time', beats: [4], unit: 4, sign: 'C' };
  if (text === 'C|') return { kind: 'time', beats: [2], unit: 2, sign: 'C|' };
  const match = /^(?:\(\s*(\d+(?:\s*\+\s*\d+)*)\s*\)|(\d+(?:\s*\+\s*\d+)*))\s*\/\s*(\d+)$/.exec(text);
  if (!match) return null;
  const beats = (match[1] ?? match[2]!).split('+').map(Number);
  const unit = Number(match[3]);
  if (unit < 1 || unit > LARGEST || beats.length > 50 || beats.some((n) => n < 1 || n > LARGEST)) return null;
  return { kind: 'time', beats, unit, sign: null };
}

/** The unit note length, `1/8` or `1`; null if it cannot be read. */
export function readUnit(text: string): WrittenLength | null {
  const match = /^(\d{1,4})(?:\s*\/\s*(\d{1,4}))?$/.exec(text);
  if (!match) return null;
  const length = { num: Number(match[1]), den: Number(match[2] ?? 1) };
  return length.num > 0 && length.den > 0 ? length : null;
}

/** The tempo; null if it cannot be read. */
export function readTempo(text: string): TempoValue | null {
  const quoted = /"([^"]*)"/.exec(text);
  const words = quoted ? plainText(quoted[1]!) : null;
  const rest = (quoted ? text.replace(quoted[0], ' ') : text).trim();
  if (rest === '') return words === null ? null : { beats: [], bpm: null, words, form: 'standard' };
  const old = /^(?:C(\d{0,4})\s*=\s*)?(\d{1,4}(?:\.\d{1,6})?)$/.exec(rest);
  if (old) return withBpm({ beats: old[1] === undefined ? [] : [{ num: Number(old[1] || 1), den: 1 }], words, form: 'old' }, old[2]!);
  const match = /^([\d\s/]+)=\s*(\d{1,4}(?:\.\d{1,6})?)$/.exec(rest);
  if (!match) return null;
  const beats = match[1]!.trim().split(/\s+/).map(readUnit);
  if (beats.length > 50 || beats.some((beat) => beat === null)) return null;
  return withBpm({ beats: beats as WrittenLength[], words, form: 'standard' }, match[2]!);
}

function withBpm(tempo: Omit<TempoValue, 'bpm'>, bpm: string): TempoValue | null {
  return Number(bpm) > 0 ? { ...tempo, bpm: Number(bpm) } : null;
}
