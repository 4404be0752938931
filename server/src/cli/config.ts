// The nearest bullfiddle.json above a tune file, and what it and `--for NAME` make of the settings.
import { dirname, join, resolve } from 'node:path';
import { type ConfigFile, emptyConfigFile, readConfigFile, resolveConfig } from '../arrangement/index.ts';
import type { FileConfig } from '../arrangement/types.ts';
import { lineIndex } from '../text/line-index.ts';
import type { Io } from './command.ts';

/** Settings for the tune files of one run. */
export interface Configs {
  /** The configuration file that holds for a tune file; the empty one if there is none. `-` is looked up from the current folder. */
  fileFor(path: string): Promise<ConfigFile>;
  /** Settings for a tune file, for the named player if one is given; null if the configuration knows no such player. */
  settingsFor(path: string, player: string | null): Promise<FileConfig | null>;
}

/** Reads each configuration file once and says on stderr, once, what is wrong in it. */
export function configsOf(io: Io): Configs {
  const byFolder = new Map<string, Promise<ConfigFile>>();
  const resolved = new Map<ConfigFile, Map<string | null, FileConfig>>();
  const inFolder = (folder: string): Promise<ConfigFile> => {
    const known = byFolder.get(folder);
    if (known !== undefined) return known;
    const made = readIn(folder, io).then((file) => file ?? (dirname(folder) === folder ? emptyConfigFile : inFolder(dirname(folder))));
    byFolder.set(folder, made);
    return made;
  };
  const fileFor = (path: string): Promise<ConfigFile> => inFolder(path === '-' ? io.cwd : dirname(resolve(io.cwd, path)));
  return {
    fileFor,
    async settingsFor(path, player) {
      const file = await fileFor(path);
      const own = player === null ? {} : file.players.get(player);
      if (own === undefined) return null;
      const made = resolved.get(file) ?? new Map<string | null, FileConfig>();
      resolved.set(file, made);
      const config = made.get(player) ?? resolveConfig(file, { player: own });
      made.set(player, config);
      return config;
    },
  };
}

/** Settings for a tune file and the named player; null, with the reason on stderr, if the configuration knows no such player. */
export async function settingsOrWord(
  file: { readonly name: string; readonly path: string },
  player: string | null,
  configs: Configs,
  io: Io,
): Promise<FileConfig | null> {
  const config = await configs.settingsFor(file.path, player);
  if (config === null) io.err(`${file.name}: ${unknownPlayer(player ?? '', await configs.fileFor(file.path))}\n`);
  return config;
}

/** Said where `--for` names nobody. */
export function unknownPlayer(name: string, file: ConfigFile): string {
  const names = [...file.players.keys()];
  const known = names.length === 0 ? 'its bullfiddle.json lists no players' : `known are ${names.join(', ')}`;
  return `no player "${name}": ${known}. Players stand under "players" in bullfiddle.json.`;
}

const absent = new Set<unknown>(['ENOENT', 'ENOTDIR', 'EISDIR']);

async function readIn(folder: string, io: Io): Promise<ConfigFile | null> {
  const path = join(folder, 'bullfiddle.json');
  const text = await io.read(path).catch((problem: unknown) => {
    const cause = problem instanceof Error ? (problem.cause as { code?: unknown } | undefined) : undefined;
    if (cause?.code !== undefined && !absent.has(cause.code)) io.err(`${path}: ${String((problem as Error).message)}\n`);
    return null;
  });
  if (text === null) return null;
  const { config, problems } = readConfigFile(text);
  const lines = lineIndex(text);
  for (const problem of problems) io.err(`${path}:${lines.positionAt(problem.from).line + 1}: ${problem.message}\n`);
  return config;
}
