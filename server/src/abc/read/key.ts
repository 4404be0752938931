// Values of K: (3.1.14) and the clef properties that K: and V: share (4.6, 7.1).
import type { ClefValue, KeyValue, Mode, VoiceProperties } from '../tree/fields.ts';
import type { Accidental, Letter } from '../tree/items.ts';

const MODES: Readonly<Record<string, Mode>> = {
  '': 'major',
  m: 'minor',
  maj: 'major',
  ion: 'major',
  min: 'minor',
  aeo: 'minor',
  dor: 'dorian',
  phr: 'phrygian',
  lyd: 'lydian',
  mix: 'mixolydian',
  loc: 'locrian',
  exp: 'explicit',
};

export interface KeyReading {
  readonly key: KeyValue;
  /** What could not be read, in the words of an error; null if all is well. */
  readonly problem: string | null;
}

const NO_KEY: KeyValue = { tonic: null, mode: 'none', accidentals: [], properties: {} };

/** The bagpipe scale of `K:Hp`: F and C sharp, G natural. `K:HP` shows no signature, and none is read into it. */
const PIPE_ACCIDENTALS: KeyValue['accidentals'] = [
  { letter: 'F', accidental: '^' },
  { letter: 'C', accidental: '^' },
  { letter: 'G', accidental: '=' },
];

/** A key from the value of K:. What cannot be read is named, the rest stands. */
export function readKey(text: string): KeyReading {
  const head = /^(HP|Hp|none(?![A-Za-z])|([A-G])([#b♯♭]?)(?:\s*([A-Za-z]{1,20})(?![A-Za-z0-9]{0,40}[=+\-0-9]))?)/.exec(text);
  const { key, used, problem } = head ? readTonic(head) : { key: NO_KEY, used: 0, problem: null };
  return withRest(key, text.slice(used), problem);
}

function readTonic(head: RegExpExecArray): { key: KeyValue; used: number; problem: string | null } {
  const [whole, name, letter, sign, word = ''] = head;
  if (name === 'HP' || name === 'Hp') {
    return { key: { ...NO_KEY, mode: 'highland', accidentals: name === 'Hp' ? PIPE_ACCIDENTALS : [] }, used: 2, problem: null };
  }
  if (!letter) return { key: NO_KEY, used: whole.length, problem: null };
  const tonic = { letter: letter as Letter, alter: alterOf(sign ?? '') };
  const lower = word.toLowerCase();
  const mode = MODES[lower] ?? (lower.length >= 3 ? MODES[lower.slice(0, 3)] : undefined);
  if (mode) return { key: { ...NO_KEY, tonic, mode }, used: whole.length, problem: null };
  // The word is a clef or another property, or no mode at all.
  const glued = whole.length > 1 + (sign ?? '').length && !/\s/.test(whole);
  const problem = glued ? `${word} is no mode. Write maj, m, mix, dor, phr, lyd, loc or nothing after the key note.` : null;
  return { key: { ...NO_KEY, tonic, mode: 'major' }, used: glued ? whole.length : whole.length - word.length, problem };
}

const alterOf = (sign: string): -1 | 0 | 1 => (sign === '#' || sign === '♯' ? 1 : sign === 'b' || sign === '♭' ? -1 : 0);

function withRest(key: KeyValue, rest: string, problem: string | null): KeyReading {
  const accidentals = [...key.accidentals];
  const others: string[] = [];
  for (const token of tokensOf(rest)) {
    const accidental = /^(\^\^|__|[\^_=])([A-Ga-g])$/.exec(token);
    if (accidental) accidentals.push({ accidental: accidental[1] as Accidental, letter: accidental[2]!.toUpperCase() as Letter });
    else if (/^exp$/i.test(token) && key.tonic) key = { ...key, mode: 'explicit' };
    else others.push(token);
  }
  const read = readProperties(others);
  const unknown = read.strays[0];
  const wrong =
    problem ??
    read.problem ??
    (unknown === undefined ? null : `${unknown} is no key, mode, accidental or clef. Write a key such as G, Am or D dor.`);
  return { key: { ...key, accidentals, properties: read.properties }, problem: wrong };
}

/** Words and `name="some words"`, in order. */
export const tokensOf = (text: string): readonly string[] => text.match(/[^\s="]+\s*=\s*"[^"]*"?|[^\s="]+\s*=\s*[^\s"]+|[^\s]+/g) ?? [];

export interface PropertiesReading {
  readonly properties: VoiceProperties;
  readonly strays: readonly string[];
  readonly problem: string | null;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** Properties from tokens; words that are none are strays. */
export function readProperties(tokens: readonly string[]): PropertiesReading {
  const properties: Mutable<VoiceProperties> = {};
  const strays: string[] = [];
  let problem: string | null = null;
  for (const token of tokens) {
    const pair = /^([^\s="]+)\s*=\s*"?([^"]*)"?$/.exec(token);
    if (pair) problem = readPair(properties, pair[1]!, pair[2]!) ?? problem;
    else {
      const clef = readClef(token);
      if (clef) properties.clef = clef;
      else strays.push(token);
    }
  }
  return { properties, strays, problem };
}

function readPair(into: Mutable<VoiceProperties>, name: string, value: string): string | null {
  switch (name.toLowerCase()) {
    case 'clef': {
      const clef = readClef(value);
      if (!clef) return `${value} is no clef. Write treble, alto, tenor, bass, perc or none, with a line number or -8 or +8 after it.`;
      into.clef = clef;
      return null;
    }
    case 'transpose':
    case 't':
      return readNumber(value, name, 96, (n) => (into.transpose = n));
    case 'octave':
      return readNumber(value, name, 8, (n) => (into.octave = n));
    case 'stafflines':
      return readNumber(value, name, 99, (n) => (into.staffLines = n));
    case 'middle':
    case 'm':
      into.middle = value;
      return null;
    case 'name':
    case 'nm':
      into.name = value;
      return null;
    case 'subname':
    case 'snm':
    case 'sname':
      into.shortName = value;
      return null;
    case 'stem':
      if (value !== 'up' && value !== 'down' && value !== 'auto') return `stem=${value} is not known. Write up, down or auto.`;
      into.stem = value;
      return null;
    default:
      into.others = new Map([...(into.others ?? []), [name, value]]);
      return null;
  }
}

function readNumber(value: string, name: string, most: number, take: (n: number) => void): string | null {
  const n = /^[+-]?\d{1,4}$/.test(value) ? Number(value) : Number.NaN;
  if (Number.isNaN(n) || Math.abs(n) > most) return `${name}=${value} is no number from ${-most} to ${most}.`;
  take(n);
  return null;
}

const CLEF_NAMES: Readonly<Record<string, { shape: ClefValue['shape']; line: number | null }>> = {
  treble: { shape: 'treble', line: null },
  alto: { shape: 'alto', line: null },
  tenor: { shape: 'tenor', line: null },
  bass: { shape: 'bass', line: null },
  perc: { shape: 'perc', line: null },
  none: { shape: 'none', line: null },
  // Old letters, accepted as the clefs they named.
  G: { shape: 'treble', line: null },
  F: { shape: 'bass', line: null },
  C: { shape: 'alto', line: null },
  P: { shape: 'perc', line: null },
};

/** A clef such as `bass`, `alto1`, `treble-8`; null if it is none. */
export function readClef(text: string): ClefValue | null {
  const match = /^"?([A-Za-z]+)([1-5])?([+-]8)?"?$/.exec(text);
  const base = match && CLEF_NAMES[match[1]!];
  if (!match || !base) return null;
  return { shape: base.shape, line: match[2] ? Number(match[2]) : base.line, octave: match[3] === '-8' ? -1 : match[3] === '+8' ? 1 : 0 };
}
