// `bullfiddle registers`: in which keys and octaves a melody lies well on the bass, a line of JSON a melody and version.
import { readBook } from '../../abc/index.ts';
import { type ArrangeTools, partStage, registersOf, versionOf } from '../../arrangement/index.ts';
import { makeTables } from '../../fingering/index.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import { openBook, tableBytes } from '../book.ts';
import type { Command } from '../command.ts';
import { usageError } from '../run.ts';

const options = { ...inputOptions, for: { kind: 'text', what: 'a player of bullfiddle.json' } } as const;

export const registers: Command = {
  name: 'registers',
  summary: 'Rank keys and octaves in which a melody lies well as a low and a high version, as JSON.',
  usage: `bullfiddle registers FILE [--for NAME] [--stdin-name NAME]

  --for NAME    judge for this player of bullfiddle.json`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(registers, read.message, io);
    if (read.files.length !== 1) return usageError(registers, 'name one tune file.', io);
    const open = await openBook(read.files[0]!, read.values.for, read.values['stdin-name'], io);
    if (open === null) return 2;
    const tools: ArrangeTools = { read: readBook, tables: makeTables(tableBytes), config: open.config };
    open.book.tunes.forEach((_, i) => {
      const stage = partStage(open.book, i, open.config);
      const melody = versionOf(stage)?.version.startsWith('source') ?? stage.parts[0]?.kind === 'melody';
      if (!melody) return;
      for (const version of ['low', 'high'] as const) {
        const keys = registersOf(stage, version, tools);
        if (keys.length > 0)
          io.out(`${JSON.stringify({ file: open.source.name, number: stage.score.number, title: stage.score.title, version, keys })}\n`);
      }
    });
    return 0;
  },
};
