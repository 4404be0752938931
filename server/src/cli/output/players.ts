// Tunes by players: who can play what, up to which tempo, and the bars that stand in the way.
import { readBook } from '../../abc/index.ts';
import { planStage } from '../../arrangement/index.ts';
import type { FileConfig, Plan } from '../../arrangement/types.ts';
import { findingsOf } from '../../checks/index.ts';
import type { TableCache } from '../../fingering/index.ts';
import { barNumberAt } from '../../score/bar-numbers.ts';
import type { Source } from '../sources.ts';

/** One bass part and player. Tempos are beats a minute of `beat` (in whole notes); null where no tempo is too fast, or none slow enough. */
export interface PlayerRow {
  readonly file: string;
  readonly number: number | null;
  readonly title: string;
  readonly voice: string;
  readonly player: string;
  /** Whether there is no error against the part for this player. */
  readonly playable: boolean;
  readonly beat: string;
  readonly comfortable: number | null;
  readonly limit: number | null;
  /** Bars with an error, a pickup being 0. */
  readonly blocking: readonly number[];
}

/** The rows of a file for one player, in the order of its tunes and voices. */
export function rowsFor(source: Source, player: string, config: FileConfig, tables: TableCache): readonly PlayerRow[] {
  const book = readBook(source.text);
  return book.tunes.flatMap((_, index) => {
    const stage = planStage(book, index, config, tables);
    const errors = findingsOf(stage, 'plan').filter(({ severity }) => severity === 'error');
    return stage.fingered.map(({ plan }): PlayerRow => {
      const voice = stage.score.voices.filter(({ id }) => id === plan.voice);
      const own = errors.flatMap(({ from }) => barNumberAt({ voices: voice }, from) ?? []);
      const { number, title } = stage.score;
      const blocking = [...new Set(own)].sort((a, b) => a - b);
      const playable = plan.playable && blocking.length === 0;
      return { file: source.name, number, title, voice: plan.voice, player, playable, ...tempos(plan), blocking };
    });
  });
}

const tempos = ({ topTempo: { beat, comfortable, limit } }: Plan) => ({ beat, comfortable, limit });

const heads = ['tune', 'player', 'playable', 'comfortable', 'limit', 'blocking bars'] as const;

/** A table for people, columns lined up; rows of a tune stand together. */
export function playersTable(rows: readonly PlayerRow[]): string {
  const cells = [heads, ...rows.map(cellsOf)];
  const widths = heads.map((_, column) => Math.max(...cells.map((row) => row[column]!.length)));
  return cells
    .map(
      (row) =>
        `${row
          .map((cell, column) => cell.padEnd(widths[column]!))
          .join('  ')
          .trimEnd()}\n`,
    )
    .join('');
}

function cellsOf({ number, title, player, playable, beat, comfortable, limit, blocking }: PlayerRow): readonly string[] {
  const tempo = (bpm: number | null): string => (bpm === null ? '-' : `${beat} = ${bpm}`);
  return [`${number ?? '?'} ${title}`, player, playable ? 'yes' : 'no', tempo(comfortable), tempo(limit), blocking.join(' ')];
}
