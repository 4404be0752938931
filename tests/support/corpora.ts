// Open tune corpora for tests, where they are at hand: in BULLFIDDLE_CORPORA, or beside the checkout. A fresh clone has none, and tests that want them then count as skipped.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';

export const corporaFolder = process.env.BULLFIDDLE_CORPORA ?? resolve(import.meta.dirname, '../../../shared/corpora');
export const corporaHere = existsSync(corporaFolder);

/** Every .abc file of the corpora: path and text (byte-order mark kept). */
export function corpusFiles(): readonly { path: string; text: string }[] {
  if (!corporaHere) return [];
  const walk = (folder: string): string[] =>
    readdirSync(folder)
      .sort()
      .flatMap((name) => {
        const path = join(folder, name);
        return statSync(path).isDirectory() ? walk(path) : path.endsWith('.abc') ? [path] : [];
      });
  return walk(corporaFolder).map((path) => ({ path, text: readFileSync(path, 'utf8') }));
}
