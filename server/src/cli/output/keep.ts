// From a fingered tune to files kept in a folder: what the commands that write handouts share.
import { join } from 'node:path';
import type { PlanStage } from '../../arrangement/types.ts';
import { prepare } from '../../engraving/prepare.ts';
import type { HandoutTune } from '../../handout/index.ts';
import { playOut } from '../../score/index.ts';
import type { Io } from '../command.ts';
import { messageOf } from '../sources.ts';
import type { FileNames } from './file-names.ts';
import type { Made } from './writers.ts';

export const handoutTune = ({ book, index, score, fingered }: PlanStage): HandoutTune => ({
  score,
  played: playOut(score),
  engraving: prepare(book, index),
  plans: fingered.map(({ plan }) => plan),
});

/** Writes a file and prints its name; false, with the reason said, where that fails. */
export async function keep(made: Made, out: string, names: FileNames, say: (message: string) => void, io: Io): Promise<boolean> {
  if (made.kind === 'problem') {
    say(made.message);
    return false;
  }
  const path = join(out, names.unique(made.name));
  try {
    await io.write(path, made.bytes);
    io.out(`${path}\n`);
    return true;
  } catch (problem) {
    say(`${path} could not be written: ${messageOf(problem)}`);
    return false;
  }
}

/** A progress line on a terminal, from 20 tunes on. */
export function progress(name: string, tunes: number, io: Io): (done: number) => void {
  if (!io.terminal || tunes < 20) return () => {};
  return (done) => io.err(`\r${name}: ${done} of ${tunes} tunes${done === tunes ? '\n' : ''}`);
}
