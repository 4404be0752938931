// `bullfiddle transpose`: moves tunes by semitones; what became of each pin goes to stderr.
import { type PinFate, partStage, planStage, settlePins, transposeEdits } from '../../arrangement/index.ts';
import { makeTables } from '../../fingering/index.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import { editedText, type OpenBook, openBook, placeName, tableBytes } from '../book.ts';
import type { Command, Io } from '../command.ts';
import { usageError } from '../run.ts';
import { bookOf } from '../sources.ts';

const options = {
  ...inputOptions,
  by: { kind: 'number', least: -36, most: 36 },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
} as const;

export const transpose: Command = {
  name: 'transpose',
  summary: 'Move the tunes of a file by semitones, pins included where a hand can follow; text on standard output.',
  usage: `bullfiddle transpose FILE --by N [--for NAME] [--stdin-name NAME]

  --by N        semitones, up (5) or down (-5); a fourth up is the same fingering a string higher
  --for NAME    judge pins for this player of bullfiddle.json`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(transpose, read.message, io);
    const { files, values } = read;
    if (files.length !== 1) return usageError(transpose, 'name one tune file.', io);
    if (values.by === null) return usageError(transpose, '--by is missing: how many semitones?', io);
    const open = await openBook(files[0]!, values.for, values['stdin-name'], io);
    if (open === null) return 2;
    io.out(settled(moved(open, values.by, io), io));
    return 0;
  },
};

/** The book with all tunes moved; tells of pins. */
function moved(open: OpenBook, by: number, io: Io): OpenBook {
  const text = editedText(open, (tune) => {
    const { edits, pins } = transposeEdits(partStage(open.book, tune, open.config), by);
    tell(open, tune, pins, io);
    return edits;
  });
  const source = { ...open.source, text };
  return { ...open, source, book: bookOf(source) };
}

/** Passages that the pins now make unplayable lose them. */
function settled(open: OpenBook, io: Io): string {
  const tables = makeTables(tableBytes);
  return editedText(open, (tune) => {
    const { edits, pins } = settlePins(planStage(open.book, tune, open.config, tables));
    tell(open, tune, pins, io);
    return edits;
  });
}

function tell(open: OpenBook, tune: number, pins: readonly PinFate[], io: Io): void {
  for (const pin of pins) io.err(`${placeName(open, tune, pin.from)}: ${pin.message}\n`);
}
