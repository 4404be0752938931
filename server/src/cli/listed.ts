// What the commands that write from a list of tunes (a packet's, a booklet's) share: how they are called, and what holds for the whole run.
import type { ExportOptions } from '../handout/index.ts';
import { inputOptions, readArguments, type Values } from './arguments.ts';
import type { Chosen } from './chosen.ts';
import type { Command, ExitCode, Io } from './command.ts';
import { fileNames } from './output/file-names.ts';
import { keep } from './output/keep.ts';
import type { Made } from './output/writers.ts';
import { usageError } from './run.ts';

const options = {
  ...inputOptions,
  out: { kind: 'text', what: 'a folder' },
  paper: { kind: 'choice', choices: ['a4', 'letter'] },
  rhythm: { kind: 'flag' },
  date: { kind: 'text', what: 'a day like 2026-01-31' },
} as const;

/** One call: the list, the folder for what is made, and what was asked. */
export interface ListCall {
  readonly path: string;
  readonly out: string;
  readonly asked: Values<typeof options>;
}

/** The call by its arguments; null, with the reason said, if it is wrong. */
export function listCall(command: Command, args: readonly string[], io: Io): ListCall | null {
  const wrong = (message: string): null => {
    usageError(command, message, io);
    return null;
  };
  const read = readArguments(args, options);
  if (read.kind === 'wrong') return wrong(read.message);
  if (read.files.length !== 1) return wrong(`name one ${command.name} file.`);
  if (read.values.out === null) return wrong('say where to write: --out DIR.');
  return { path: read.files[0]!, out: read.values.out, asked: read.values };
}

/** Writes all that is made; 2 if something could not be. */
export async function keepAll(files: AsyncIterable<Made>, { out }: ListCall, say: (message: string) => void, io: Io): Promise<ExitCode> {
  const names = fileNames();
  let good = true;
  for await (const made of files) good = (await keep(made, out, names, say, io)) && good;
  return good ? 0 : 2;
}

/** How the pages look: as the call asks, else as the settings of the first tune say; dated by the list, the call, or the list's last commit. */
export async function lookOf(
  { path, asked }: ListCall,
  date: string | null,
  { settings: { handout } }: Chosen,
  io: Io,
): Promise<ExportOptions> {
  const history = await io.history(path);
  const credit = { by: handout.credit, version: history?.version ?? '', date: date ?? asked.date ?? history?.date ?? '' };
  return { paper: asked.paper ?? handout.paper, density: handout.density, rhythm: asked.rhythm ? 'stems' : 'none', credit };
}
