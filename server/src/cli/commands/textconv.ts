// `bullfiddle textconv`: a tune file with a line a bar, so that git shows changes by part and bar.
import { readBook } from '../../abc/index.ts';
import { barPlaces, scoreStage } from '../../arrangement/index.ts';
import type { Score } from '../../score/types.ts';
import { readArguments } from '../arguments.ts';
import { type Unit, unitsOf } from '../bar-units.ts';
import type { Command } from '../command.ts';
import { usageError } from '../run.ts';
import { readSources } from '../sources.ts';

export const textconv: Command = {
  name: 'textconv',
  summary: 'Print a tune file with a line a bar, named by part and number, for git diff and git log -p.',
  usage: `bullfiddle textconv FILE

To set it up: git config diff.bullfiddle.textconv "bullfiddle textconv"`,
  async run(args, io) {
    const read = readArguments(args, {});
    if (read.kind === 'wrong') return usageError(textconv, read.message, io);
    if (read.files.length !== 1) return usageError(textconv, 'name one tune file.', io);
    const { sources, failed } = await readSources(read.files, io, null);
    for (const { text } of sources) io.out(byBar(text));
    return failed ? 2 : 0;
  },
};

function byBar(text: string): string {
  const book = readBook(text);
  const { tunes } = book;
  const scores = tunes.map((_, i) => scoreStage(book, i).score);
  return unitsOf(text)
    .map((unit) => {
      const tune = tunes[unit.tune];
      const name = tune === undefined || unit.kind === 'line' ? null : barName(scores[unit.tune]!, unit, tune.at);
      return `${name === null ? '' : `${name}  `}${unit.text.trim()}\n`;
    })
    .join('');
}

/** `B 3`, with the voice where there are several; null where no note begins. */
function barName(score: Score, { from, to }: Unit, at: number): string | null {
  for (const voice of score.voices) {
    const note = voice.notes.find((one) => one.from >= from - at && one.from < to - at);
    if (note === undefined) continue;
    const { label, ending, number } = barPlaces(voice)[note.bar]!;
    return [...(score.voices.length > 1 ? [voice.id] : []), label, `${number}${ending === '' ? '' : ` (ending ${ending})`}`]
      .join(' ')
      .trim();
  }
  return null;
}
