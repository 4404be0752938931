// `bullfiddle booklet`: tunes in a given order as one PDF, with an index and bookmarks, two versions on facing pages.
import { basename } from 'node:path';
import type { BookletTune, BookTune } from '../../handout/index.ts';
import { type BookletEntry, type BookletFile, readBooklet } from '../booklet-file.ts';
import { type Chosen, chooser } from '../chosen.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { readList } from '../list-file.ts';
import { keepAll, type ListCall, listCall, lookOf } from '../listed.ts';
import { fontsOf } from '../output/fonts.ts';
import { handoutTune, progress } from '../output/keep.ts';
import { type Made, pdfOf } from '../output/writers.ts';

export const booklet: Command = {
  name: 'booklet',
  summary: 'Write tunes in a given order as one PDF, with an index of what each asks of the player.',
  usage: `bullfiddle booklet FILE.json --out DIR [--paper a4|letter] [--rhythm] [--date DAY]

  FILE.json   { "title": "...", "player": "T.B.", "date": "2026-01-31", "tunes": [
                { "file": "tune.abc", "version": "low", "facing": "high", "key": "D", "times": 3 } ] }
              only "tunes" and "file" are needed; "facing" puts a second version on the page beside,
              "key" moves the tune into that key on paper
  --out DIR   the folder to write to; made if it is not there
  --rhythm    stems, beams and rests under the tab, so that it can be read alone`,
  async run(args, io) {
    const call = listCall(booklet, args, io);
    return call === null ? 2 : writeBooklet(call, io);
  },
};

/** A tune of the booklet, and where it begins. */
type Placed = BookletTune & BookTune & { readonly chosen: Chosen };

async function writeBooklet(call: ListCall, io: Io): Promise<ExitCode> {
  const { path } = call;
  const say = (message: string): void => io.err(`${path}: ${message}\n`);
  const file = await readList(path, readBooklet, say, io);
  const tunes = file === null ? null : await tunesOf(path, file, say, io);
  if (file === null || tunes === null) return 2;
  return keepAll(filesOf(call, file, tunes, io), call, say, io);
}

/** All tunes in order; null, with the reasons said, if one is not to be had. */
async function tunesOf(path: string, file: BookletFile, say: (message: string) => void, io: Io): Promise<readonly Placed[] | null> {
  const choose = chooser(path, file.player, io);
  const found: Placed[] = [];
  let good = true;
  for (const [i, { names, key, times }] of file.tunes.entries()) {
    for (const [n, name] of names.entries()) {
      const chosen = await choose(name, key);
      if ('problem' in chosen) {
        say(`tunes[${i}]: ${chosen.problem}`);
        good = false;
        continue;
      }
      for (const told of chosen.told) io.err(`${told}\n`);
      // A tune that faces another is the same piece: it is played, and counted, once.
      found.push({ tune: handoutTune(chosen.stage), times: n === 0 ? times : 0, starts: startOf(names, n), chosen });
    }
  }
  return good ? found : null;
}

const startOf = (names: BookletEntry['names'], index: number): BookTune['starts'] =>
  names.length === 1 ? 'page' : index === 0 ? 'left' : 'right';

async function* filesOf(call: ListCall, file: BookletFile, tunes: readonly Placed[], io: Io): AsyncIterable<Made> {
  const { bookletFront, flowOf } = await import('../../handout/index.ts');
  const look = await lookOf(call, file.date, tunes[0]!.chosen, io);
  const { date } = look.credit;
  const stem = basename(call.path).replace(/\.json$/i, '');
  const title = file.title ?? stem;
  const fonts = await fontsOf(io)();
  const told = progress(call.path, tunes.length, io);
  const flow = flowOf({ title, front: bookletFront({ title, date, tunes }), tunes, fonts, options: look, told });
  yield* pdfOf(`${stem}.pdf`, flow, fonts);
}
