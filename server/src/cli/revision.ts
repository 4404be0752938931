// Files as they were at a git revision, for comparing with the present ones.
import { execFile } from 'node:child_process';
import { isAbsolute, relative, resolve } from 'node:path';

export interface Revision {
  /** Tune files that were there: the one named, or all in the folder and below. Named as the present ones are. */
  files(path: string): Promise<readonly string[]>;
  /** A file's text; null if it was not there. */
  read(path: string): Promise<string | null>;
}

/** The revision, for paths from the folder `cwd`. Rejects with a message for the player if git or the revision is missing. */
export async function openRevision(name: string, cwd: string): Promise<Revision> {
  await git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${name}^{commit}`], cwd).catch((problem: unknown) => {
    throw new Error(
      isMissing(problem)
        ? 'git is not installed, so revisions cannot be read.'
        : `there is no revision "${name}" here; git log shows those there are.`,
    );
  });
  // Git takes paths from the current folder, not from the repository's top, if they begin with a dot; absolute ones it does not take.
  const here = (path: string): string => `./${relative(cwd, resolve(cwd, path))}`;
  return {
    // Where a path lies outside the repository nothing of it was there.
    files: async (path) => {
      const told = await git(['ls-tree', '-r', '-z', '--name-only', name, '--', here(path)], cwd).catch(() => '');
      const tunes = told.split('\0').filter((file) => file.toLowerCase().endsWith('.abc'));
      return isAbsolute(path) ? tunes.map((file) => resolve(cwd, file)) : tunes;
    },
    read: (path) => git(['show', `${name}:${here(path)}`], cwd).catch(() => null),
  };
}

const isMissing = (problem: unknown): boolean => (problem as { code?: unknown }).code === 'ENOENT';

function git(args: readonly string[], cwd: string): Promise<string> {
  return new Promise((done, fail) => {
    execFile('git', args, { cwd, maxBuffer: 64 * 1024 * 1024, encoding: 'utf8' }, (problem, stdout) =>
      problem === null ? done(stdout) : fail(problem),
    );
  });
}
