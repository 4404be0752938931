// `bullfiddle ink`: writes the computed fingering into the text, or checks that nothing is left to be computed.
import { type InkOptions, inkEdits, planStage } from '../../arrangement/index.ts';
import { makeTables } from '../../fingering/index.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import { editedText, type OpenBook, openBook, placeName, tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { usageError } from '../run.ts';

const options = {
  ...inputOptions,
  density: { kind: 'choice', choices: ['changes', 'all'] },
  as: { kind: 'choice', choices: ['inline', 'lines'] },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
  check: { kind: 'flag' },
} as const;

export const ink: Command = {
  name: 'ink',
  summary: 'Write the computed fingers and strings into the text as pins; the new text goes to standard output.',
  usage: `bullfiddle ink FILE [--density changes|all] [--as inline|lines] [--for NAME] [--check] [--stdin-name NAME]

  --density     write pins where something changes (the default), or at every note
  --as          before the notes (the default), or in symbol lines under the music
  --for NAME    finger for this player of bullfiddle.json
  --check       write nothing; say which tunes are not fully pinned, exit 1 if any`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(ink, read.message, io);
    const { files, values } = read;
    if (files.length !== 1) return usageError(ink, 'name one tune file.', io);
    const open = await openBook(files[0]!, values.for, values['stdin-name'], io);
    if (open === null) return 2;
    if (values.check) return checkInk(open, io);
    io.out(inked(open, { density: values.density ?? 'changes', form: values.as ?? 'inline' }));
    return 0;
  },
};

function inked(open: OpenBook, how: InkOptions): string {
  const tables = makeTables(tableBytes);
  return editedText(open, (tune) => inkEdits(planStage(open.book, tune, open.config, tables), how));
}

/** A tune is locked if inking it at every note would change nothing. */
function checkInk(open: OpenBook, io: Io): ExitCode {
  const tables = makeTables(tableBytes);
  let loose = false;
  open.book.tunes.forEach((_, tune) => {
    const stage = planStage(open.book, tune, open.config, tables);
    const missing = inkEdits(stage, { density: 'all', form: 'inline' });
    if (missing.length === 0) return;
    loose = true;
    const notes = missing.length === 1 ? '1 note is' : `${missing.length} notes are`;
    io.out(
      `${placeName(open, tune, missing[0]!.span.from)}: ${stage.score.title}: ${notes} not fully pinned; ink --density all pins them.\n`,
    );
  });
  return loose ? 1 : 0;
}
