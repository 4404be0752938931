// Checking many files: on all cores where it is worth it, printed file by file in their order, none kept.
import { version } from '../../../package.json';
import type { Severity } from '../checks/index.ts';
import { fileChecker } from './check-file.ts';
import type { CheckedFile, CheckJob, ExitCode, Io } from './command.ts';
import type { Helper } from './helpers.ts';
import { inOrder, type Work } from './in-order.ts';
import { findingsSarif } from './output/findings-sarif.ts';
import { sumOf, type Tally } from './output/findings-text.ts';
import { type Progress, progressOf } from './output/progress.ts';
import type { Reported } from './output/report.ts';
import { listSources } from './sources.ts';

/** Bytes of tune text from which on helpers are started: one core checks less in the time that a thread takes to start (`npm run bench`). */
const HELPED_FROM = 64 * 1024;

/** The most files that go to a helper at once: sending a few small ones takes as long as checking them. */
const LARGEST_BATCH = 16;

/** The least number of batches for each helper, so that none has to wait long for the last. */
const LEAST_BATCHES = 8;

type BatchWork = Work<readonly string[], readonly CheckedFile[]>;

/** Severities, gravest first. */
export const severities = ['error', 'warning', 'info'] as const;

/** Checks the files and the tune files under the folders, prints what is found, and gives the exit code; findings from `least` on fail. */
export async function checkAll(args: readonly string[], job: CheckJob, least: Severity, io: Io): Promise<ExitCode> {
  const { paths, failed } = await listSources(args, io);
  const printer = printerOf(job, progressOf(paths.length, io), io);
  const helpers = (await isLarge(paths, io)) ? io.helpers(job) : [];
  const batches = batchesOf(paths, helpers.length);
  for await (const files of inOrder(batches, workersOf(helpers, fileChecker(job, io)))) files.forEach(printer.print);
  for (const helper of helpers) helper.stop();
  const tally = printer.end();
  if (failed || tally.files < paths.length) return 2;
  return severities.slice(0, severities.indexOf(least) + 1).some((severity) => tally[severity] > 0) ? 1 : 0;
}

async function isLarge(paths: readonly string[], io: Io): Promise<boolean> {
  if (paths.length < 2) return false;
  let bytes = 0;
  for (const path of paths) {
    bytes += await io.size(path);
    if (bytes >= HELPED_FROM) return true;
  }
  return false;
}

/** This thread alone, or the helpers; standard input belongs to this thread. */
function workersOf(helpers: readonly Helper<string, CheckedFile>[], here: Work<string, CheckedFile>): readonly BatchWork[] {
  const alone: BatchWork = async ([path]) => [await here(path!)];
  if (helpers.length === 0) return [alone];
  // Each takes two batches at a time: while this thread waits for its turn, a helper has the next at hand.
  return [...helpers, ...helpers].map(
    (helper): BatchWork =>
      (paths) =>
        paths[0] === '-' ? alone(paths) : helper.run(paths),
  );
}

/** Files as they go to a helper at once: one by one where there are few, standard input always. */
function batchesOf(paths: readonly string[], helpers: number): readonly (readonly string[])[] {
  const size = helpers === 0 ? 1 : Math.max(1, Math.min(LARGEST_BATCH, Math.floor(paths.length / (helpers * LEAST_BATCHES))));
  const batches: string[][] = [];
  for (const path of paths) {
    const last = batches.at(-1);
    if (last === undefined || last.length === size || path === '-' || last[0] === '-') batches.push([path]);
    else last.push(path);
  }
  return batches;
}

interface Printer {
  print(file: CheckedFile): void;
  end(): Tally;
}

/** Prints files as they come; SARIF is one text for all, printed at the end. */
function printerOf({ format }: CheckJob, progress: Progress, io: Io): Printer {
  const tally = { error: 0, warning: 0, info: 0, hit: 0, files: 0 };
  const kept: Reported[] = [];
  const told = new Set<string>();
  let seen = 0;
  const say = ({ said, printed }: CheckedFile): void => {
    // What is wrong in bullfiddle.json every helper says.
    const news = said.filter((text) => !told.has(text));
    if (news.length > 0 || printed !== '') progress.clear();
    for (const text of news) io.err(text);
    for (const text of news) told.add(text);
    if (printed !== '') io.out(format === 'text' && tally.hit > 0 ? `\n${printed}` : printed);
  };
  return {
    print(file) {
      say(file);
      for (const { severity } of file.findings) tally[severity]++;
      if (file.findings.length > 0) tally.hit++;
      if (file.judged) tally.files++;
      if (format === 'sarif') kept.push(...file.findings);
      progress.show(++seen);
    },
    end() {
      progress.clear();
      if (format === 'sarif') io.out(findingsSarif(kept, version));
      if (format === 'text') io.err(`${sumOf(tally)}\n`);
      return tally;
    },
  };
}
