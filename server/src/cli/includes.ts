// Files that a tune file includes: read beside it or below, never outside its folder, before its book is read.
import { dirname, join, resolve, sep } from 'node:path';
import { type Include, readBook } from '../abc/index.ts';
import type { Io } from './command.ts';

/** Files that one tune file can bring in; those after them are told as not read. */
const MOST_FILES = 1_000;

/** The files that the text includes, read. Names hang on the folder of the tune file, in included files too. */
export async function includesOf(path: string, text: string, io: Io): Promise<Include> {
  const kept = new Map<string, string | null>();
  const include: Include = (name) => kept.get(name) ?? null;
  // Most files include nothing, and need no reading to know it.
  if (!text.includes('abc-include')) return include;
  const folder = path === '-' ? io.cwd : dirname(resolve(io.cwd, path));
  for (let names = asked(text, kept); names.length > 0; names = asked(text, kept)) {
    for (const name of names) kept.set(name, kept.size < MOST_FILES ? await readInside(folder, name, io) : null);
  }
  return include;
}

/** Names that reading the text asks for and that have not been looked up; files found by them may name more. */
function asked(text: string, kept: ReadonlyMap<string, string | null>): readonly string[] {
  const names = new Set<string>();
  const include: Include = (name) => {
    if (!kept.has(name)) names.add(name);
    return kept.get(name) ?? null;
  };
  readBook(text, { include });
  return [...names];
}

/** The text of a file in the folder or below it; null if there is none, or if its name or a link leads out. */
async function readInside(folder: string, name: string, io: Io): Promise<string | null> {
  const path = join(folder, name);
  if (!path.startsWith(folder.endsWith(sep) ? folder : folder + sep)) return null;
  try {
    return (await io.isInside(folder, path)) ? await io.read(path) : null;
  } catch {
    return null;
  }
}
