// The world of the command line for real: files, standard streams, and fault messages that a person understands.
import { execFile } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { mkdir, readdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { dirname, join, resolve, sep } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { lostFile } from './check-file.ts';
import type { CheckedFile, CheckJob, FileBytes, Io } from './command.ts';
import { decodeText } from './decode.ts';
import { type Helper, startHelper } from './helpers.ts';

/** The `Io` of this process. Relative paths hang on the folder it was started in. `program` is what helpers run. */
export function processIo(program: string, err: (text: string) => void = standardError): Io {
  return {
    cwd: process.cwd(),
    read: (path) => explained(readText(path, err)),
    list: (path) => explained(tuneFiles(path)),
    size: (path) =>
      path === '-'
        ? Promise.resolve(0)
        : stat(resolve(path)).then(
            ({ size }) => size,
            () => 0,
          ),
    isInside: async (folder, path) => (await realpath(path)).startsWith(join(await realpath(folder), sep)),
    write: (path, bytes) => explained(writeWhole(resolve(path), bytes)),
    asset: (name) => explained(readFile(join(productFolder(), 'media', name))),
    history: gitHistory,
    out: (text) => void process.stdout.write(text),
    err,
    sayingTo: (other) => processIo(program, other),
    helpers: (job) => helpersFor(job, program),
    terminal: process.stderr.isTTY === true,
  };
}

const standardError = (text: string): void => void process.stderr.write(text);

function helpersFor(job: CheckJob, program: string): readonly Helper<string, CheckedFile>[] {
  const count = availableParallelism();
  // With every core at work, clearing memory on several cores at once makes each thread wait for the others.
  if (count > 1) setFlagsFromString('--no-parallel-scavenge');
  return count < 2 ? [] : Array.from({ length: count }, () => startHelper(program, job, lostFile));
}

/** Files are read at one go: nothing else waits meanwhile, and handing each to another thread takes longer than reading it. */
async function readText(path: string, err: (text: string) => void): Promise<string> {
  const { text, warning } = decodeText(path === '-' ? await standardInput() : readFileSync(resolve(path)));
  if (warning !== null) err(`${path}: ${warning}\n`);
  return text;
}

async function standardInput(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Uint8Array);
  return Buffer.concat(chunks);
}

async function tuneFiles(path: string): Promise<readonly string[]> {
  if (path === '-' || !(await stat(resolve(path))).isDirectory()) return [path];
  const entries = await readdir(resolve(path), { withFileTypes: true });
  const found: string[] = [];
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    // Linked folders are not followed: they may lead round in a circle or out of the folder.
    if (entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules') {
      // A folder that cannot be read stands for itself: reading it says why, and the rest goes on.
      found.push(...(await tuneFiles(join(path, entry.name)).catch(() => [join(path, entry.name)])));
    } else if (!entry.isDirectory() && entry.name.toLowerCase().endsWith('.abc')) found.push(join(path, entry.name));
  }
  return found;
}

/** Makes a folder and those above it. Not by mkdir's own `recursive`: where a file system refuses folders with "not found" (/proc), that never ends. */
async function makeFolder(folder: string): Promise<void> {
  if (existsSync(folder)) return;
  if (dirname(folder) !== folder) await makeFolder(dirname(folder));
  await mkdir(folder).catch((problem: NodeJS.ErrnoException) => {
    if (problem.code !== 'EEXIST') throw problem;
  });
}

/** Writes a file whole or not at all: beside it first, then renamed over it. */
async function writeWhole(path: string, bytes: FileBytes): Promise<void> {
  await makeFolder(dirname(path));
  const beside = `${path}.${randomBytes(4).toString('hex')}.part`;
  try {
    await writeFile(beside, bytes);
    await rename(beside, path);
  } catch (problem) {
    await rm(beside, { force: true });
    throw problem;
  }
}

/** The folder that holds `media/`: above the bundle or the source, wherever this runs from. */
function productFolder(): string {
  let folder = __dirname;
  while (!existsSync(join(folder, 'media/fonts')) && dirname(folder) !== folder) folder = dirname(folder);
  return folder;
}

async function gitHistory(path: string): ReturnType<Io['history']> {
  if (path === '-') return null;
  const file = resolve(path);
  const log = await git(dirname(file), ['log', '-1', '--format=%h %cs', '--', file]);
  const [version, date] = log.trim().split(' ');
  if (!version || !date) return null;
  const changed = await git(dirname(file), ['status', '--porcelain', '--', file]);
  return { version: changed === '' ? version : `${version}+`, date };
}

/** What git prints; nothing where there is no git, no repository, or it fails. */
function git(folder: string, args: readonly string[]): Promise<string> {
  return new Promise((done) => {
    execFile('git', ['-C', folder, ...args], { encoding: 'utf8' }, (problem, out) => done(problem ? '' : out));
  });
}

const faults: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder; look at the name.',
  EACCES: 'not permitted; look at the rights of the file and its folder.',
  EPERM: 'not permitted; the file may be open elsewhere or write-protected.',
  EBUSY: 'the file is open elsewhere; close it there and try again.',
  EISDIR: 'this is a folder; name a file.',
  ENOTDIR: 'a part of this path is a file, not a folder.',
  EEXIST: 'a part of this path is a file, not a folder.',
  ENOSPC: 'the disk is full; nothing was written.',
  EROFS: 'this disk cannot be written to; choose another folder.',
  EMFILE: 'too many files are open; close some programs and try again.',
  ENAMETOOLONG: 'the name is too long.',
};

async function explained<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (problem) {
    const code = (problem as { code?: unknown }).code;
    const message = typeof code === 'string' ? faults[code] : undefined;
    throw message === undefined ? problem : new Error(message, { cause: problem });
  }
}
