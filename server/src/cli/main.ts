// The `bullfiddle` command: this process's streams, arguments and exit code around one run; or, on another thread, a helper of that run.
import { isMainThread } from 'node:worker_threads';
import { version } from '../../../package.json';
import { fileChecker } from './check-file.ts';
import type { CheckJob } from './command.ts';
import { commands } from './commands/index.ts';
import { serveItems } from './helpers.ts';
import { processIo } from './io.ts';
import { runCommandLine } from './run.ts';

const io = processIo(__filename);

if (isMainThread) runProcess();
else serveItems((job: CheckJob) => fileChecker(job, io));

function runProcess(): void {
  // The reader of a pipe may stop early (`bullfiddle notes book.abc | head -1`); that is no error of ours.
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (problem: NodeJS.ErrnoException) => {
      if (problem.code === 'EPIPE') process.exit();
      if (stream === process.stdout) process.stderr.write(`bullfiddle: the output could not be written: ${problem.message}\n`);
      process.exit(2);
    });
  }

  // Set, not passed to exit(): output still on its way to a pipe must arrive.
  runCommandLine(process.argv.slice(2), io, commands, version).then((code) => {
    process.exitCode = code;
  });
}
