// What a tune declares in `I:bullfiddle key=value ...`: kind of part, player and instrument, version, silenced findings.
import type { KeyedValue } from '../abc/tree/fields.ts';
import type { HeaderTree } from '../abc/tree/tree.ts';
import type { Instruction, NoteId, Voice } from '../score/types.ts';
import { type Span, shifted } from '../text/span.ts';
import { readSetting, type SettingKey, type SetupPatch, settingKeys } from './settings.ts';
import type { PartProblem, VersionTag } from './types.ts';

/** All that is declared for one voice, nearest scope already applied. */
export interface Declarations {
  readonly part: 'bass' | 'melody' | null;
  readonly setup: SetupPatch;
  readonly allow: readonly string[];
  readonly version: VersionTag | null;
  /** Places of the hand asked for, each from the first note at or after `before`. */
  readonly handStops: readonly { readonly before: NoteId; readonly stop: number }[];
  readonly problems: readonly PartProblem[];
}

/** Every key of `I:bullfiddle`, for reading, completing and explaining. */
export const declarationKeys: readonly SettingKey[] = [
  { key: 'part', meaning: 'Whether the voice is judged as a bass part or only read as a melody.', values: ['bass', 'melody'] },
  ...settingKeys,
  { key: 'hand-stop', meaning: 'Stop of the first finger (or of the thumb) from here.', values: [] },
  { key: 'allow', meaning: 'Codes of findings to silence, with commas.', values: [] },
  { key: 'tune', meaning: 'Name of the tune, shared by all its versions.', values: [] },
  { key: 'version', meaning: 'Which version this is; a suffix is allowed, as low-easy.', values: ['source', 'low', 'high', 'backing'] },
  { key: 'extra', meaning: 'Labels of parts that only this version has, with commas.', values: [] },
  { key: 'key-shift', meaning: 'Semitones by which the key differs from the source.', values: [] },
  { key: 'from', meaning: 'Digests of the source parts this version was made from.', values: [] },
  { key: 'made', meaning: 'Digests of the parts as they were made.', values: [] },
];

interface Gathered {
  part: 'bass' | 'melody' | null;
  setup: SetupPatch;
  allow: string[];
  tag: { tune?: string; version?: string; from?: string; made?: string; extra?: readonly string[]; keyShift?: number };
  handStops: { before: NoteId; stop: number }[];
  problems: PartProblem[];
}

const scopeRank = { file: 0, tune: 1, voice: 2, inline: 3 } as const;

/** Reads the declarations that hold for a voice. Problems of the tune's header are told where `told` says so, lest every voice repeat them; those of the file's header by `headerProblems`. */
export function readDeclarations(voice: Voice, told: 'all' | 'own-scope'): Declarations {
  const into: Gathered = { part: null, setup: {}, allow: [], tag: {}, handStops: [], problems: [] };
  let misspelt = false;
  const ours = voice.instructions.filter((i) => i.name === 'bullfiddle');
  for (const instruction of [...ours].sort((a, b) => scopeRank[a.scope] - scopeRank[b.scope])) {
    const problems = instruction.keyed.flatMap((keyed) => readOne(keyed, placeOf(instruction, voice), into) ?? []);
    misspelt ||= problems.some(({ code }) => code === 'bullfiddle.unknown-key');
    const mine = instruction.scope === 'voice' || instruction.scope === 'inline' || (told === 'all' && instruction.scope === 'tune');
    if (mine) into.problems.push(...problems);
  }
  // Without `version=` a tune is its source; where a word is misspelt, that may be the one.
  const version = misspelt && into.tag.version === undefined ? null : versionTag(into.tag);
  return { ...into, version };
}

function versionTag(tag: Gathered['tag']): VersionTag | null {
  if (tag.tune === undefined && tag.version === undefined) return null;
  const { tune = '', version = 'source', from = null, made = null, extra = [], keyShift = 0 } = tag;
  return { tune, version, from, made, extra, keyShift };
}

/** Problems of the declarations in a file's header, with spans in the file. */
export function headerProblems(header: HeaderTree): readonly PartProblem[] {
  const into: Gathered = { part: null, setup: {}, allow: [], tag: {}, handStops: [], problems: [] };
  return header.lines.flatMap(({ at, line }) => {
    if (line.kind !== 'field' && line.kind !== 'directive') return [];
    const { value } = line.field;
    if (value.kind !== 'instruction' || value.name !== 'bullfiddle') return [];
    return value.keyed.flatMap(({ key, value: text, keySpan, valueSpan }) => {
      const keyed = { key, value: text, keySpan: shifted(keySpan, at), valueSpan: shifted(valueSpan, at) };
      return readOne(keyed, { holds: 'whole part', before: 0 }, into) ?? [];
    });
  });
}

/** Where a declaration stands: for the whole part, or from a note on. */
interface Place {
  readonly holds: 'whole part' | 'from here';
  readonly before: NoteId;
}

function placeOf({ scope, before }: Instruction, voice: Voice): Place {
  const first = voice.notes[0];
  return { holds: scope !== 'inline' || first === undefined || before <= first.id ? 'whole part' : 'from here', before };
}

/** Takes one `key=value` into what was gathered; gives the problem if it cannot be taken. */
function readOne(keyed: KeyedValue, place: Place, into: Gathered): PartProblem | null {
  const { key, value } = keyed;
  const setting = readSetting(key, value);
  if (setting === null) return readWord(keyed, place, into);
  if (setting.kind === 'bad') return badValue(keyed, setting.message, setting.allowed);
  if (place.holds === 'from here')
    return badValue(keyed, `${key}= holds for a whole part. Put it in the header, after V:, or before the first note.`, []);
  into.setup = { ...into.setup, ...setting.patch };
  return null;
}

function readWord(keyed: KeyedValue, place: Place, into: Gathered): PartProblem | null {
  const { key, value } = keyed;
  switch (key) {
    case 'part':
      if (value !== 'bass' && value !== 'melody') return badValue(keyed, `part= takes bass or melody, not "${value}".`, ['bass', 'melody']);
      into.part = value;
      return null;
    case 'allow':
      into.allow.push(...listOf(value));
      return null;
    case 'hand-stop':
      return readHandStop(keyed, place, into);
    case 'tune':
    case 'from':
    case 'made':
      into.tag[key] = value;
      return null;
    case 'extra':
      into.tag.extra = listOf(value);
      return null;
    case 'version':
      return readVersion(keyed, into);
    case 'key-shift':
      if (!/^[+-]?\d{1,2}$/.test(value)) return badValue(keyed, `key-shift= takes whole semitones, as 5 or -2, not "${value}".`, []);
      into.tag.keyShift = Number(value);
      return null;
    default:
      return unknownKey(keyed);
  }
}

const listOf = (value: string): readonly string[] => value.split(',').filter((item) => item !== '');

function readVersion(keyed: KeyedValue, into: Gathered): PartProblem | null {
  if (!/^(source|low|high|backing)(-[\w-]+)?$/.test(keyed.value))
    return badValue(keyed, `version= takes source, low, high or backing, or one of them with a suffix (low-easy), not "${keyed.value}".`, [
      'source',
      'low',
      'high',
      'backing',
    ]);
  into.tag.version = keyed.value;
  return null;
}

function readHandStop(keyed: KeyedValue, { before }: Place, into: Gathered): PartProblem | null {
  const stop = Number(keyed.value);
  if (!/^\d{1,2}$/.test(keyed.value) || stop < 1 || stop > 36)
    return badValue(keyed, `hand-stop= takes the stop of the first finger, 1 or more, not "${keyed.value}".`, []);
  into.handStops.push({ before, stop });
  return null;
}

function badValue(keyed: KeyedValue, message: string, allowed: readonly string[]): PartProblem {
  const [only] = allowed;
  const fix =
    allowed.length === 1 && only !== undefined
      ? { title: `Write ${keyed.key}=${only}`, edits: [{ span: keyed.valueSpan, insert: only }] }
      : null;
  return { code: 'bullfiddle.bad-value', ...spanOf(keyed.valueSpan), message, fix };
}

function unknownKey(keyed: KeyedValue): PartProblem {
  const names = declarationKeys.map((k) => k.key);
  const near = names.find((name) => differsByOne(name, keyed.key));
  return {
    code: 'bullfiddle.unknown-key',
    ...spanOf(keyed.keySpan),
    message: `I:bullfiddle has no key "${keyed.key}". It has ${names.join(', ')}.`,
    fix: near === undefined ? null : { title: `Write ${near}=`, edits: [{ span: keyed.keySpan, insert: near }] },
  };
}

const spanOf = (span: Span): Span => ({ from: span.from, to: span.to });

/** Whether one letter added, left out, changed, or two neighbours swapped make one word the other. */
function differsByOne(a: string, b: string): boolean {
  let head = 0;
  while (head < a.length && a[head] === b[head]) head++;
  const restA = a.slice(head);
  const restB = b.slice(head);
  if (restA === restB) return true;
  const swapped = restB.length > 1 && restA === `${restB[1]}${restB[0]}${restB.slice(2)}`;
  return swapped || restA.slice(1) === restB || restA === restB.slice(1) || restA.slice(1) === restB.slice(1);
}
