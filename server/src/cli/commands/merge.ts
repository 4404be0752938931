// `bullfiddle merge`: a merge driver for git that merges tunes bar by bar.
import { readArguments } from '../arguments.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { mergeTexts } from '../merge-units.ts';
import { usageError } from '../run.ts';
import { messageOf } from '../sources.ts';

export const merge: Command = {
  name: 'merge',
  summary: 'Merge two changed tune files bar by bar, as a merge driver for git; a bar changed on both sides is a conflict.',
  usage: `bullfiddle merge BASE OURS THEIRS

  BASE    the file both sides began with
  OURS    one side; the result is written here
  THEIRS  the other side
Exit 1 if a conflict is left. To set it up: git config merge.bullfiddle.driver "bullfiddle merge %O %A %B"`,
  async run(args, io) {
    const read = readArguments(args, {});
    if (read.kind === 'wrong') return usageError(merge, read.message, io);
    const [base, ours, theirs, ...others] = read.files;
    if (base === undefined || ours === undefined || theirs === undefined || others.length > 0)
      return usageError(merge, 'name three files: the old one and the two that came of it.', io);
    return mergeFiles([base, ours, theirs], ours, io);
  },
};

async function mergeFiles(paths: readonly string[], result: string, io: Io): Promise<ExitCode> {
  try {
    const [base, ours, theirs] = (await Promise.all(paths.map((path) => io.read(path)))) as [string, string, string];
    const { text, conflicts } = mergeTexts(base, ours, theirs);
    await io.write(result, text);
    if (conflicts > 0)
      io.err(`${conflicts === 1 ? '1 bar was' : `${conflicts} bars were`} changed on both sides; look for <<<<<<< and choose.\n`);
    return conflicts > 0 ? 1 : 0;
  } catch (problem) {
    io.err(`bullfiddle merge: ${messageOf(problem)}\n`);
    return 2;
  }
}
