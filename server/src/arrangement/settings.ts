// The settings of player and instrument as text: the same words in a tune's declarations and in bullfiddle.json.
import { checkSetup, defaultSetup, tuningNamed, tuningNames, tuningOf } from '../bass/index.ts';
import type { HandSize, HandSpans, School, Setup } from '../bass/types.ts';

export type SetupPatch = Partial<Setup>;

/** A setting that was understood, or why not and what would be. */
export type SettingReading = { readonly kind: 'ok'; readonly patch: SetupPatch } | BadSetting;

export interface BadSetting {
  readonly kind: 'bad';
  readonly message: string;
  /** Values that would do, as far as they can be listed. */
  readonly allowed: readonly string[];
}

const handSizes: readonly HandSize[] = ['small', 'medium', 'large'];
const schools: readonly School[] = ['closed', 'open', 'pivot', 'one-three-four', 'fist'];

/** A setting's name, what it means to a player, and the words it takes (empty for numbers and lists). */
export interface SettingKey {
  readonly key: string;
  readonly meaning: string;
  readonly values: readonly string[];
}

export const settingKeys: readonly SettingKey[] = [
  { key: 'tuning', meaning: 'Tuning of the instrument, by name.', values: tuningNames },
  { key: 'strings', meaning: 'Open strings as sounding pitches, low to high: E1,A1,D2,G2.', values: [] },
  { key: 'mensur', meaning: 'Vibrating string length in mm.', values: [] },
  {
    key: 'hand',
    meaning:
      'Size of the hand, or its reach in mm: first to fourth finger and thumb to third, each comfortable/extended (110/126/132/150).',
    values: handSizes,
  },
  { key: 'top', meaning: 'Highest stop used, in semitones above the open string.', values: [] },
  { key: 'school', meaning: 'How the left hand is held.', values: schools },
  { key: 'thumb', meaning: 'Lowest stop of the thumb in thumb position.', values: [] },
  { key: 'pluck', meaning: 'Comfortable attacks a second.', values: [] },
  {
    key: 'heel',
    meaning: 'Stop of the first finger where the thumb meets the neck heel: 7 (D-neck) or 8 (E-flat-neck).',
    values: ['7', '8'],
  },
];

const numberKeys: Readonly<Record<string, 'mensur' | 'top' | 'thumb' | 'pluck' | 'neckHeel'>> = {
  mensur: 'mensur',
  top: 'top',
  thumb: 'thumb',
  pluck: 'pluck',
  heel: 'neckHeel',
};

const ok = (patch: SetupPatch): SettingReading => ({ kind: 'ok', patch });
const bad = (message: string, allowed: readonly string[]): BadSetting => ({ kind: 'bad', message, allowed });
const listed = (values: readonly string[]): string => values.join(', ');

/** Reads one setting; `null` if the key is none of `settingKeys`. Bounds are the instrument's own (bass/). */
export function readSetting(key: string, text: string): SettingReading | null {
  if (key === 'tuning') return readTuning(text);
  if (key === 'strings') return readStrings(text);
  if (key === 'hand') return readHand(text);
  if (key === 'school') return readSchool(text);
  const name = numberKeys[key];
  return name === undefined ? null : readNumber(key, name, text);
}

function readTuning(text: string): SettingReading {
  const tuning = tuningNamed(text);
  if (tuning !== null) return ok({ tuning });
  return bad(`"${text}" is no known tuning. Known are ${listed(tuningNames)}; others can be given as strings=E1,A1,D2,G2.`, tuningNames);
}

function readStrings(text: string): SettingReading {
  const tuning = tuningOf(text);
  if (tuning !== null) return ok({ tuning });
  return bad(`"${text}" is no list of open strings. Write sounding pitches from low to high, as E1,A1,D2,G2.`, ['E1,A1,D2,G2']);
}

function readHand(text: string): SettingReading {
  const size = handSizes.find((name) => name === text);
  if (size !== undefined) return ok({ hand: size });
  const spans = readSpans(text);
  if (spans !== null) return checked('hand', { hand: spans });
  return bad(`"${text}" is no hand. Write ${listed(handSizes)}, or four lengths in mm as 110/126/132/150.`, handSizes);
}

/** `110/126/132/150`: one-four and thumb-three, each comfortable then extended. */
function readSpans(text: string): HandSpans | null {
  const mm = text.split('/').map(Number);
  const [a, b, c, d] = mm;
  if (mm.length !== 4 || mm.some((n) => !Number.isFinite(n) || n <= 0)) return null;
  return { oneFour: { comfortable: a!, extended: b! }, thumbThree: { comfortable: c!, extended: d! } };
}

function readSchool(text: string): SettingReading {
  const school = schools.find((name) => name === text);
  return school !== undefined ? ok({ school }) : bad(`"${text}" is no school of fingering. Known are ${listed(schools)}.`, schools);
}

function readNumber(key: string, name: 'mensur' | 'top' | 'thumb' | 'pluck' | 'neckHeel', text: string): SettingReading {
  const value = text === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) return bad(`${key}= takes a number, not "${text}".`, []);
  return checked(name, { [name]: value });
}

/** A patch that the instrument accepts by itself. */
function checked(name: string, patch: SetupPatch): SettingReading {
  const problem = checkSetup({ ...defaultSetup, ...patch }).find((p) => p.key === name);
  return problem === undefined ? ok(patch) : bad(problem.message, problem.allowed);
}
