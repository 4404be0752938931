// What holds for a document: the editor's settings under the nearest bullfiddle.json, with a version that grows at every change.
import type { Connection } from 'vscode-languageserver';
import {
  type ConfigFile,
  type ConfigProblem,
  defaultConfig,
  emptyConfigFile,
  type HandoutConfig,
  readConfigFile,
  resolveConfig,
} from '../arrangement/index.ts';
import type { FileConfig } from '../arrangement/types.ts';
import { defaultFeatureSettings, type FeatureSettings } from '../features/index.ts';
import { configCandidates, type Files } from './files.ts';

export interface Settings {
  /** Grows whenever anything that decides the answers has changed. */
  readonly version: number;
  /** The configuration for a document, at once: the last one known, the defaults before the first. */
  of(uri: string): FileConfig;
  /** How handouts of a document are printed. */
  handout(uri: string): HandoutConfig;
  /** What is set for writing help in a document. */
  features(uri: string): FeatureSettings;
  /** Asks the editor and looks for files again; resolves when `of` is up to date for these documents. */
  refresh(uris: readonly string[]): Promise<void>;
  /** Settings pushed by a client that cannot be asked. */
  given(value: unknown): void;
}

interface Known {
  /** What it was read from, to see whether anything has changed. */
  readonly text: string;
  readonly config: FileConfig;
  readonly features: FeatureSettings;
  readonly handout: HandoutConfig;
}

/** Where `refresh` looks. */
export interface SettingsSource {
  /** The client's settings for a document; null if it cannot be asked. */
  ask(uri: string): Promise<unknown> | null;
  readonly files: Files;
  roots(): readonly string[];
  /** Told of what is wrong with a `bullfiddle.json`, and of none when it is mended. */
  problems(uri: string, text: string, problems: readonly ConfigProblem[]): void;
  /** Told of what is wrong with the editor's settings. */
  warn(message: string): void;
}

/** Asks the client for the settings that hold for a document. */
export const askClient =
  (connection: Connection) =>
  (uri: string): Promise<unknown> =>
    connection.workspace.getConfiguration({ scopeUri: uri, section: 'bullfiddle' });

export function makeSettings(source: SettingsSource): Settings {
  const known = new Map<string, Known>();
  let pushed: unknown = {};
  let version = 0;
  const refreshOne = async (uri: string): Promise<void> => {
    const editor = (await source.ask(uri)) ?? pushed;
    const file = await nearestFile(uri, source);
    const text = JSON.stringify([editor, file?.text ?? null]);
    if (known.get(uri)?.text === text) return;
    const config = resolveConfig(editorLayer(editor, source), file?.config ?? emptyConfigFile);
    known.set(uri, { text, config, features: featuresIn(editor), handout: (file?.config ?? emptyConfigFile).handout });
    version++;
  };
  return {
    get version() {
      return version;
    },
    of: (uri) => known.get(uri)?.config ?? defaultConfig,
    handout: (uri) => known.get(uri)?.handout ?? emptyConfigFile.handout,
    features: (uri) => known.get(uri)?.features ?? defaultFeatureSettings,
    refresh: async (uris) => void (await Promise.all(uris.map(refreshOne))),
    given: (value) => {
      pushed = value;
    },
  };
}

async function nearestFile(uri: string, source: SettingsSource): Promise<{ readonly text: string; readonly config: ConfigFile } | null> {
  for (const candidate of configCandidates(uri, source.roots())) {
    const text = await source.files.read(candidate);
    if (text === null) continue;
    const { config, problems } = readConfigFile(text);
    source.problems(candidate, text, problems);
    return { text, config };
  }
  return null;
}

const oneOf = <T extends string>(value: unknown, allowed: readonly T[], otherwise: T): T =>
  allowed.find((one) => one === value) ?? otherwise;

function featuresIn(value: unknown): FeatureSettings {
  const given = (value as { hints?: { places?: unknown; barSum?: unknown } } | null)?.hints ?? {};
  const { hints } = defaultFeatureSettings;
  return {
    hints: {
      places: oneOf(given.places, ['off', 'changes', 'all'], hints.places),
      barSum: oneOf(given.barSum, ['off', 'on'], hints.barSum),
    },
  };
}

const playerKeys = ['tuning', 'mensur', 'hand', 'school', 'top', 'thumb', 'pluck', 'heel'];

/** The editor's settings in the words of a `bullfiddle.json`, so that one reader judges both. */
function editorLayer(value: unknown, source: SettingsSource): ConfigFile {
  const given = typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
  const player = Object.fromEntries(
    playerKeys.filter((key) => given[key] !== undefined && given[key] !== null).map((key) => [key, given[key]]),
  );
  const { config, problems } = readConfigFile(JSON.stringify({ player, checks: given.checks ?? {} }));
  for (const problem of problems) source.warn(`In the settings: ${problem.message}`);
  return config;
}
