// `bullfiddle format`: canonical spacing, in place or checked.
import { readBook } from '../../abc/index.ts';
import { scoreStage } from '../../arrangement/index.ts';
import { defaultFeatureSettings, features } from '../../features/index.ts';
import { applyEdits } from '../../text/span.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import type { Command, Io } from '../command.ts';
import { usageError } from '../run.ts';
import { messageOf, readSources, type Source } from '../sources.ts';

const options = { ...inputOptions, check: { kind: 'flag' } } as const;

export const format: Command = {
  name: 'format',
  summary: 'Space tune text by beats and line up voices, without touching the music.',
  usage: `bullfiddle format FILE... [--check] [--stdin-name NAME]

  --check            change nothing; name the files that would change and end with 1 if there are any
  --stdin-name NAME  what to call standard input (-), which is formatted to standard output`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(format, read.message, io);
    if (read.files.length === 0) return usageError(format, 'name a tune file or a folder.', io);
    const { sources, failed } = await readSources(read.files, io, read.values['stdin-name']);
    const take = read.values.check ? checked : written;
    const results: Result[] = [];
    for (const source of sources) results.push(await take(source, formatted(source.text), io));
    if (failed || results.includes('failed')) return 2;
    return results.includes('would-change') ? 1 : 0;
  },
};

type Result = 'fine' | 'would-change' | 'failed';

/** The text of a book with all its tunes formatted. */
function formatted(text: string): string {
  const book = readBook(text);
  const edits = book.tunes.flatMap(({ at }, i) =>
    features.format
      .answer(scoreStage(book, i), null, defaultFeatureSettings)
      .map(({ span, insert }) => ({ span: { from: span.from + at, to: span.to + at }, insert })),
  );
  return applyEdits(text, edits);
}

async function checked(source: Source, text: string, io: Io): Promise<Result> {
  if (text === source.text) return 'fine';
  io.out(`${source.name}\n`);
  return 'would-change';
}

async function written(source: Source, text: string, io: Io): Promise<Result> {
  if (source.path === '-') {
    io.out(text);
    return 'fine';
  }
  if (text === source.text) return 'fine';
  try {
    await io.write(source.path, text);
    io.err(`${source.name}: formatted.\n`);
    return 'fine';
  } catch (problem) {
    io.err(`${source.name}: ${messageOf(problem)}\n`);
    return 'failed';
  }
}
