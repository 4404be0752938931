// `bullfiddle compare`: what changed between two files, or since a git revision, as a player would say it.
import { readBook } from '../../abc/index.ts';
import { type Difference, differences } from '../../arrangement/index.ts';
import { makeTables } from '../../fingering/index.ts';
import { readArguments } from '../arguments.ts';
import { tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { configsOf } from '../config.ts';
import { type Teller, tellers } from '../output/changes.ts';
import { openRevision, type Revision } from '../revision.ts';
import { usageError } from '../run.ts';
import { messageOf } from '../sources.ts';

const options = { format: { kind: 'choice', choices: ['text', 'json', 'html'] } } as const;

export const compare: Command = {
  name: 'compare',
  summary: 'Say what changed between two tune files, or since a git revision, bar by bar in a player’s words.',
  usage: `bullfiddle compare OLD NEW [--format text|json|html]
       bullfiddle compare REVISION -- FILE... [--format text|json|html, before the --]

  OLD NEW       two tune files
  REVISION      a git revision (main, HEAD~2, a tag); the files or folders after -- are compared with it
  --format      lines of text (the default), one JSON object a changed tune, or one page (html) with both states side by side
Exit 1 if something changed, as diff does.`,
  async run(args, io) {
    const dashes = args.indexOf('--');
    const read = readArguments(dashes < 0 ? args : args.slice(0, dashes), options);
    if (read.kind === 'wrong') return usageError(compare, read.message, io);
    const paths = dashes < 0 ? [] : args.slice(dashes + 1);
    const wanted = dashes < 0 ? 2 : 1;
    if (read.files.length !== wanted || (dashes >= 0 && paths.length === 0))
      return usageError(compare, 'name two files, or a revision and files after --.', io);
    const [first, second] = read.files;
    const teller = tellers[read.values.format ?? 'text'](io, first!, second ?? 'now');
    return dashes < 0 ? compareFiles(first!, second!, teller, io) : compareRevision(first!, paths, teller, io);
  },
};

async function compareFiles(old: string, next: string, teller: Teller, io: Io): Promise<ExitCode> {
  const texts = await Promise.all([old, next].map((path) => io.read(path).catch((problem: unknown) => said(path, problem, io))));
  const [was, is] = texts;
  if (was === null || is === null || was === undefined || is === undefined) return 2;
  const config = await configsOf(io).settingsFor(next, null);
  const code = tellAll(next, differences(readBook(was), readBook(is), config!, makeTables(tableBytes)), teller);
  await teller.end();
  return code;
}

function said(path: string, problem: unknown, io: Io): null {
  io.err(`${path}: ${messageOf(problem)}\n`);
  return null;
}

async function compareRevision(name: string, args: readonly string[], teller: Teller, io: Io): Promise<ExitCode> {
  const revision = await openRevision(name, io.cwd).catch((problem: unknown) => said('bullfiddle compare', problem, io));
  if (revision === null) return 2;
  const configs = configsOf(io);
  const tables = makeTables(tableBytes);
  let code: ExitCode = 0;
  for (const arg of args) {
    const files = await filesOf(revision, arg, io);
    if (files.length === 0) code = 2;
    for (const { path, isThere } of files) {
      try {
        const [was, is] = [await revision.read(path), isThere ? await io.read(path) : ''];
        const config = await configs.settingsFor(path, null);
        const found = tellAll(path, differences(readBook(was ?? ''), readBook(is), config!, tables), teller);
        code = code === 2 ? 2 : found === 1 ? 1 : code;
      } catch (problem) {
        said(path, problem, io);
        code = 2;
      }
    }
  }
  await teller.end();
  return code;
}

interface ThenOrNow {
  readonly path: string;
  /** Whether it is there now. */
  readonly isThere: boolean;
}

/** The tune files that a name or folder stands for, now or at the revision; empty, with the reason said, if for none. */
async function filesOf(revision: Revision, arg: string, io: Io): Promise<readonly ThenOrNow[]> {
  const then = await revision.files(arg);
  const now: readonly string[] = await io.list(arg).catch((problem: unknown) => {
    if (then.length === 0) said(arg, problem, io);
    return [];
  });
  const gone = then.filter((path) => !now.includes(path));
  return [...now.map((path) => ({ path, isThere: true })), ...gone.map((path) => ({ path, isThere: false }))];
}

function tellAll(file: string, found: Iterable<Difference | null>, { tell }: Teller): ExitCode {
  let code: ExitCode = 0;
  for (const difference of found) {
    if (difference === null) continue;
    tell(file, difference);
    code = 1;
  }
  return code;
}
