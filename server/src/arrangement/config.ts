// `bullfiddle.json`: what is agreed for a folder of tunes, and how it is laid under the tunes' own declarations.
import { defaultSetup } from '../bass/index.ts';
import type { Setup } from '../bass/types.ts';
import type { Span } from '../text/span.ts';
import { readSetting, type SetupPatch, settingKeys } from './settings.ts';
import type { FileConfig } from './types.ts';

export type Level = 'error' | 'warning' | 'info' | 'off';

export interface HandoutConfig {
  readonly paper: 'a4' | 'letter';
  readonly density: 'all' | 'changes' | 'pins';
  /** Printed at the foot of each page; empty for none. */
  readonly credit: string;
}

/** A configuration file, read. */
export interface ConfigFile {
  readonly player: SetupPatch;
  /** A teacher's pupils by initials. */
  readonly players: ReadonlyMap<string, SetupPatch>;
  readonly checks: ReadonlyMap<string, Level>;
  readonly handout: HandoutConfig;
}

/** Something in the file that cannot be used; `span` is in the file's text. */
export interface ConfigProblem extends Span {
  readonly message: string;
}

/** Settings of one origin, to be laid over others. */
export interface ConfigLayer {
  readonly player?: SetupPatch;
  readonly checks?: ReadonlyMap<string, Level>;
}

const defaultHandout: HandoutConfig = { paper: 'a4', density: 'changes', credit: '' };
export const emptyConfigFile: ConfigFile = { player: {}, players: new Map(), checks: new Map(), handout: defaultHandout };
export const defaultConfig: FileConfig = { setup: defaultSetup, severities: new Map() };

/** Lays settings over the defaults, later layers over earlier ones (editor's settings first, then the file, then a player). */
export function resolveConfig(...layers: readonly ConfigLayer[]): FileConfig {
  const setup: Setup = Object.assign({}, defaultSetup, ...layers.map((layer) => layer.player ?? {}));
  const severities = new Map(layers.flatMap((layer) => [...(layer.checks ?? [])]));
  return { setup, severities };
}

/** Reads the text of a `bullfiddle.json`. What is wrong is told and left out; the rest holds. */
export function readConfigFile(text: string): { readonly config: ConfigFile; readonly problems: readonly ConfigProblem[] } {
  const problems: ConfigProblem[] = [];
  const at = (key: string, message: string): void => {
    problems.push({ ...placeOf(text, key), message });
  };
  const value = parseJson(text);
  if (value.kind === 'bad') {
    problems.push({ from: 0, to: text.length, message: `bullfiddle.json is no valid JSON and is not used: ${value.message}.` });
    return { config: emptyConfigFile, problems };
  }
  if (!isRecord(value.json)) {
    problems.push({ from: 0, to: text.length, message: 'bullfiddle.json must hold an object: { "player": { ... } }.' });
    return { config: emptyConfigFile, problems };
  }
  return { config: readParts(value.json, at), problems };
}

type Report = (key: string, message: string) => void;
type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);

function parseJson(text: string): { readonly kind: 'ok'; readonly json: unknown } | { readonly kind: 'bad'; readonly message: string } {
  try {
    return { kind: 'ok', json: JSON.parse(text) };
  } catch (error) {
    return { kind: 'bad', message: error instanceof Error ? error.message : String(error) };
  }
}

/** Where a key stands in the text; the whole first line if it is not found as written. */
function placeOf(text: string, key: string): Span {
  const quoted = JSON.stringify(key);
  const from = text.indexOf(quoted);
  return from < 0 ? { from: 0, to: 0 } : { from, to: from + quoted.length };
}

function readParts(json: Json, report: Report): ConfigFile {
  const known = ['player', 'players', 'checks', 'handout', '$schema'];
  for (const key of Object.keys(json))
    if (!known.includes(key)) report(key, `bullfiddle.json has no "${key}". It may hold player, players, checks and handout.`);
  const section = (key: string): Json => {
    const value = json[key] ?? {};
    if (isRecord(value)) return value;
    report(key, `"${key}" must be an object.`);
    return {};
  };
  return {
    player: readPlayer(section('player'), report),
    players: readPlayers(section('players'), report),
    checks: readLevels(section('checks'), report),
    handout: readHandout(section('handout'), report),
  };
}

function readPlayers(json: Json, report: Report): ReadonlyMap<string, SetupPatch> {
  const players = new Map<string, SetupPatch>();
  for (const [name, value] of Object.entries(json)) {
    if (isRecord(value)) players.set(name, readPlayer(value, report));
    else report(name, `"${name}" must be an object with a player's settings.`);
  }
  return players;
}

function readPlayer(json: Json, report: Report): SetupPatch {
  let patch: SetupPatch = {};
  for (const [key, value] of Object.entries(json)) {
    const reading = typeof value === 'string' || typeof value === 'number' ? readSetting(key, String(value)) : null;
    if (reading?.kind === 'ok') patch = { ...patch, ...reading.patch };
    else report(key, reading?.message ?? unusable(key));
  }
  return patch;
}

function unusable(key: string): string {
  const names = settingKeys.map((setting) => setting.key);
  if (names.includes(key)) return `"${key}" takes a number or a word.`;
  return `A player has no "${key}". Known are ${names.join(', ')}.`;
}

const levels: readonly Level[] = ['error', 'warning', 'info', 'off'];

function readLevels(json: Json, report: Report): ReadonlyMap<string, Level> {
  const severities = new Map<string, Level>();
  for (const [code, value] of Object.entries(json)) {
    const level = levels.find((name) => name === value);
    if (level !== undefined) severities.set(code, level);
    else report(code, `The severity of "${code}" must be one of ${levels.join(', ')}.`);
  }
  return severities;
}

function readHandout(json: Json, report: Report): HandoutConfig {
  const pick = <T extends string>(key: string, values: readonly T[], otherwise: T): T => {
    const value = json[key];
    const found = values.find((name) => name === value);
    if (value !== undefined && found === undefined) report(key, `"${key}" must be one of ${values.join(', ')}.`);
    return found ?? otherwise;
  };
  for (const key of Object.keys(json))
    if (!(key in defaultHandout)) report(key, `A handout has no "${key}". It has ${Object.keys(defaultHandout).join(', ')}.`);
  if (json.credit !== undefined && typeof json.credit !== 'string') report('credit', '"credit" must be text.');
  return {
    paper: pick('paper', ['a4', 'letter'], defaultHandout.paper),
    density: pick('density', ['all', 'changes', 'pins'], defaultHandout.density),
    credit: typeof json.credit === 'string' ? json.credit : defaultHandout.credit,
  };
}
