// `bullfiddle compare`: what changed between two files, or since a git revision, as a player would say it.
import { readBook } from '../../abc/index.ts';
import type { Book } from '../../abc/tree/tree.ts';
import { type Change, compareTunes, planStage } from '../../arrangement/index.ts';
import type { FileConfig, PlanStage } from '../../arrangement/types.ts';
import { makeTables, type TableCache } from '../../fingering/index.ts';
import { readArguments } from '../arguments.ts';
import { tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { configsOf } from '../config.ts';
import { readAtRevision } from '../revision.ts';
import { usageError } from '../run.ts';
import { messageOf } from '../sources.ts';

const options = { format: { kind: 'choice', choices: ['text', 'json'] } } as const;

export const compare: Command = {
  name: 'compare',
  summary: 'Say what changed between two tune files, or since a git revision, bar by bar in a player’s words.',
  usage: `bullfiddle compare OLD NEW [--format text|json]
       bullfiddle compare REVISION -- FILE... [--format text|json, before the --]

  OLD NEW       two tune files
  REVISION      a git revision (main, HEAD~2, a tag); the files or folders after -- are compared with it
  --format      lines of text (the default), or one JSON object a changed tune
Exit 1 if something changed, as diff does.`,
  async run(args, io) {
    const dashes = args.indexOf('--');
    const read = readArguments(dashes < 0 ? args : args.slice(0, dashes), options);
    if (read.kind === 'wrong') return usageError(compare, read.message, io);
    const paths = dashes < 0 ? [] : args.slice(dashes + 1);
    const wanted = dashes < 0 ? 2 : 1;
    if (read.files.length !== wanted || (dashes >= 0 && paths.length === 0))
      return usageError(compare, 'name two files, or a revision and files after --.', io);
    const format = read.values.format ?? 'text';
    const tell = format === 'json' ? tellJson : tellText;
    const [first, second] = read.files;
    return dashes < 0 ? compareFiles(first!, second!, tell, io) : compareRevision(first!, paths, tell, io);
  },
};

type Tell = (name: string, difference: Difference, io: Io) => void;

/** One tune that is in either text. */
interface Difference {
  readonly title: string;
  readonly number: number | null;
  readonly change: 'added' | 'removed' | 'changed';
  readonly changes: readonly Change[];
  readonly old: { readonly at: number; readonly stage: PlanStage } | null;
  readonly next: { readonly at: number; readonly stage: PlanStage } | null;
}

async function compareFiles(old: string, next: string, tell: Tell, io: Io): Promise<ExitCode> {
  const texts = await Promise.all([old, next].map((path) => io.read(path).catch((problem: unknown) => said(path, problem, io))));
  const [was, is] = texts;
  if (was === null || is === null || was === undefined || is === undefined) return 2;
  const config = await configsOf(io).settingsFor(next, null);
  return tellAll(next, differences(was, is, config!, makeTables(tableBytes)), tell, io);
}

function said(path: string, problem: unknown, io: Io): null {
  io.err(`${path}: ${messageOf(problem)}\n`);
  return null;
}

async function compareRevision(revision: string, args: readonly string[], tell: Tell, io: Io): Promise<ExitCode> {
  const configs = configsOf(io);
  const tables = makeTables(tableBytes);
  let code: ExitCode = 0;
  for (const arg of args) {
    const paths = (await io.list(arg).catch((problem: unknown) => said(arg, problem, io))) ?? [];
    if (paths.length === 0) code = 2;
    for (const path of paths) {
      try {
        const was = await readAtRevision(revision, path, io.cwd);
        const is = await io.read(path);
        const config = await configs.settingsFor(path, null);
        const found = tellAll(path, differences(was ?? '', is, config!, tables), tell, io);
        code = code === 2 ? 2 : found === 1 ? 1 : code;
      } catch (problem) {
        said(path, problem, io);
        code = 2;
      }
    }
  }
  return code;
}

/** Tunes are matched by number and title, then by title alone; what is left is added or removed. */
function differences(was: string, is: string, config: FileConfig, tables: TableCache): readonly Difference[] {
  const stages = (book: Book) => book.tunes.map((tune, i) => ({ at: tune.at, stage: planStage(book, i, config, tables) }));
  const old = stages(readBook(was));
  const next = stages(readBook(is));
  const taken = new Set<(typeof old)[number]>();
  const found = next.map((one): Difference => {
    const free = old.filter((other) => !taken.has(other));
    const titled = free.filter((other) => other.stage.score.title === one.stage.score.title);
    const match = titled.find((other) => other.stage.score.number === one.stage.score.number) ?? titled[0] ?? null;
    if (match !== null) taken.add(match);
    const { title, number } = one.stage.score;
    const changes = match === null ? [] : compareTunes(match.stage, one.stage);
    return { title, number, change: match === null ? 'added' : 'changed', changes, old: match, next: one };
  });
  const gone = old
    .filter((other) => !taken.has(other))
    .map((other): Difference => {
      const { title, number } = other.stage.score;
      return { title, number, change: 'removed', changes: [], old: other, next: null };
    });
  return [...found, ...gone].filter((one) => one.change !== 'changed' || one.changes.length > 0);
}

function tellAll(name: string, found: readonly Difference[], tell: Tell, io: Io): ExitCode {
  for (const difference of found) tell(name, difference, io);
  return found.length > 0 ? 1 : 0;
}

function tellText(name: string, { title, change, changes }: Difference, io: Io): void {
  if (change !== 'changed') {
    io.out(`${name}: ${title}: tune ${change}\n`);
    return;
  }
  for (const [bar, inBar] of grouped(changes))
    io.out(`${name}: ${title}: ${bar === null ? '' : `bar ${bar}: `}${inBar.map((one) => one.words).join('; ')}\n`);
}

function grouped(changes: readonly Change[]): ReadonlyMap<string | null, Change[]> {
  const byBar = new Map<string | null, Change[]>();
  for (const change of changes) byBar.set(change.bar, [...(byBar.get(change.bar) ?? []), change]);
  return byBar;
}

function tellJson(name: string, { title, number, change, changes, old, next }: Difference, io: Io): void {
  const placed = (span: Change['old'], at: number | undefined) =>
    span === null || at === undefined ? null : { from: span.from + at, to: span.to + at };
  const told = changes.map(({ bar, kind, words, ...spans }) => ({
    bar,
    kind,
    words,
    old: placed(spans.old, old?.at),
    new: placed(spans.next, next?.at),
  }));
  io.out(`${JSON.stringify({ file: name, number, title, change, changes: told })}\n`);
}
