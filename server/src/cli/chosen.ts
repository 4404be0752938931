// Tunes named in a packet or booklet file: each found by file and version, fingered for the player.
import { dirname, join } from 'node:path';
import { type ConfigFile, partStage, planStage } from '../arrangement/index.ts';
import type { PartStage, PlanStage } from '../arrangement/types.ts';
import { makeTables } from '../fingering/index.ts';
import { tableBytes } from './book.ts';
import type { Io } from './command.ts';
import { configsOf, unknownPlayer } from './config.ts';
import { inKey } from './in-key.ts';
import type { TuneName } from './list-file.ts';
import { bookOf, readSources } from './sources.ts';

export interface Chosen {
  readonly stage: PlanStage;
  readonly path: string;
  /** The settings file that holds for it. */
  readonly settings: ConfigFile;
  /** What the player should know of its way into another key. */
  readonly told: readonly string[];
}

export type Choice = Chosen | { readonly problem: string };

/** Finds tunes for a player, named by a file at `from`, in the key asked for if one is; a tune file is read once. */
export function chooser(from: string, player: string | null, io: Io): (name: TuneName, key?: string | null) => Promise<Choice> {
  const configs = configsOf(io);
  const tables = makeTables(tableBytes);
  const read = new Map<string, ReturnType<typeof readSources>>();
  return async (name, key = null) => {
    const path = join(dirname(from), name.file);
    const reading = read.get(path) ?? readSources([path], io, null);
    read.set(path, reading);
    const source = (await reading).sources[0];
    if (source === undefined) return { problem: `${path} could not be read; file names are relative to the folder of ${from}.` };
    const settings = await configs.fileFor(path);
    const config = await configs.settingsFor(path, player);
    if (config === null) return { problem: unknownPlayer(player ?? '', settings) };
    const book = bookOf(source);
    const stages = book.tunes.map((_, i) => partStage(book, i, config));
    const index = indexOf(name, stages);
    if (typeof index === 'string') return { problem: index };
    if (key === null) return { stage: planStage(book, index, config, tables), told: [], path, settings };
    const made = inKey({ source, book, config }, index, key, tables);
    return 'problem' in made ? made : { ...made, path, settings };
  };
}

/** Index of the one tune that the name fits, or what is wrong with it. */
function indexOf({ file, version, number }: TuneName, stages: readonly PartStage[]): number | string {
  const fits = stages.flatMap((stage, i) =>
    (version === null || versionOf(stage) === version) && (number === null || stage.score.number === number) ? [i] : [],
  );
  if (fits.length === 1) return fits[0]!;
  if (stages.length === 0) return `${file} holds no tune (a tune begins with X:).`;
  const held = stages.map((stage) => `X:${stage.score.number ?? '?'} ${versionOf(stage) ?? ''}`.trim()).join(', ');
  return `${fits.length === 0 ? 'no' : 'more than one'} tune of ${file} fits: it holds ${held}. Say "version" or "number".`;
}

/** As the tune declares it (I:bullfiddle version=). */
const versionOf = (stage: PartStage): string | null => stage.parts.find((part) => part.version !== null)?.version?.version ?? null;
