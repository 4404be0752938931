// Tune files for a command: names and folders from the arguments in, texts out; what cannot be read is said and skipped.
import { type Book, type Include, readBook } from '../abc/index.ts';
import type { Io } from './command.ts';
import { includesOf } from './includes.ts';

/** A tune file as read. `name` is what messages and JSON call it. */
export interface Source {
  readonly name: string;
  readonly path: string;
  readonly text: string;
  /** The files it includes. */
  readonly include: Include;
}

/** The book of a tune file, included files in their places. */
export const bookOf = ({ text, include }: Source): Book => readBook(text, { include });

/** The texts in order, and whether something could not be read (exit code 2). */
export interface Sources {
  readonly sources: readonly Source[];
  readonly failed: boolean;
}

/** Reads every file, every tune file under every folder, and standard input for `-`, which `stdinName` names. */
export async function readSources(args: readonly string[], io: Io, stdinName: string | null): Promise<Sources> {
  const { paths, failed } = await listSources(args, io);
  const read: (Source | null)[] = [];
  for (const path of paths) read.push(await readSource(path, io, stdinName));
  return { sources: read.filter((source) => source !== null), failed: failed || read.includes(null) };
}

/** Reads one tune file, or standard input for `-`; null, with the reason on stderr, if it cannot be read. */
export async function readSource(path: string, io: Io, stdinName: string | null): Promise<Source | null> {
  const name = path === '-' ? (stdinName ?? '-') : path;
  try {
    const text = await io.read(path);
    return { name, path, text, include: await includesOf(path, text, io) };
  } catch (problem) {
    io.err(`${name}: ${messageOf(problem)}\n`);
    return null;
  }
}

/** Every file, every tune file under every folder, and `-`, each once; `failed` if something was not to be found. */
export async function listSources(
  args: readonly string[],
  io: Io,
): Promise<{ readonly paths: readonly string[]; readonly failed: boolean }> {
  const paths: string[] = [];
  let failed = false;
  for (const arg of args) {
    try {
      const found = await io.list(arg);
      if (found.length === 0) io.err(`${arg}: no .abc files in this folder.\n`);
      paths.push(...found);
    } catch (problem) {
      io.err(`${arg}: ${messageOf(problem)}\n`);
      failed = true;
    }
  }
  return { paths: [...new Set(paths)], failed };
}

/** The message of whatever was thrown. */
export const messageOf = (problem: unknown): string => (problem instanceof Error ? problem.message : String(problem));
