// Files as they were at a git revision, for comparing with the present ones.
import { execFile } from 'node:child_process';

/** A file's text at a revision; null if it was not there. Rejects with a message for the player if git or the revision is missing. */
export async function readAtRevision(revision: string, path: string, cwd: string): Promise<string | null> {
  await git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`], cwd).catch((problem: unknown) => {
    throw new Error(
      isMissing(problem)
        ? 'git is not installed, so revisions cannot be read.'
        : `there is no revision "${revision}" here; git log shows those there are.`,
    );
  });
  // `./` makes git take the path from the current folder, not from the repository's top.
  const name = path.startsWith('/') ? path : `./${path}`;
  return git(['show', `${revision}:${name}`], cwd).catch(() => null);
}

const isMissing = (problem: unknown): boolean => (problem as { code?: unknown }).code === 'ENOENT';

function git(args: readonly string[], cwd: string): Promise<string> {
  return new Promise((resolve, reject) => {
    execFile('git', args, { cwd, maxBuffer: 64 * 1024 * 1024, encoding: 'utf8' }, (problem, stdout) =>
      problem === null ? resolve(stdout) : reject(problem),
    );
  });
}
