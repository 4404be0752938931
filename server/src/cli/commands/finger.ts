// `bullfiddle finger`: the fingering of each bass part, a line of JSON a tune and voice.
import { planPlace, planStage } from '../../arrangement/index.ts';
import type { FileConfig, FingeredPart, PlanStage } from '../../arrangement/types.ts';
import { makeTables, type TableCache } from '../../fingering/index.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import { tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { configsOf, settingsOrWord } from '../config.ts';
import { usageError } from '../run.ts';
import { bookOf, readSources, type Source } from '../sources.ts';

const options = {
  ...inputOptions,
  alternatives: { kind: 'number', least: 1, most: 99 },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
} as const;

export const finger: Command = {
  name: 'finger',
  summary: 'Finger each bass part: string, stop and finger of every note, shifts and top tempo, as JSON.',
  usage: `bullfiddle finger FILE... [--alternatives K] [--for NAME] [--stdin-name NAME]

  --alternatives K   K other places for each note, cheapest first, with what the part then costs more
  --for NAME         judge for this player of bullfiddle.json
  --stdin-name NAME  what to call standard input (-)`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(finger, read.message, io);
    if (read.files.length === 0) return usageError(finger, 'name a tune file or a folder.', io);
    return fingerAll(read.files, read.values, io);
  },
};

interface Asked {
  readonly alternatives: number | null;
  readonly for: string | null;
  readonly 'stdin-name': string | null;
}

async function fingerAll(files: readonly string[], asked: Asked, io: Io): Promise<ExitCode> {
  const { sources, failed } = await readSources(files, io, asked['stdin-name']);
  const configs = configsOf(io);
  const tables = makeTables(tableBytes);
  let refused = failed;
  for (const source of sources) {
    const config = await settingsOrWord(source, asked.for, configs, io);
    if (config === null) refused = true;
    else fingerFile(source, config, asked.alternatives ?? 0, tables, io);
  }
  return refused ? 2 : 0;
}

function fingerFile(source: Source, config: FileConfig, alternatives: number, tables: TableCache, io: Io): void {
  const book = bookOf(source);
  book.tunes.forEach((tune, index) => {
    const stage = planStage(book, index, config, tables);
    for (const fingered of stage.fingered) io.out(`${JSON.stringify(lineOf(source, stage, fingered, tune.at, alternatives))}\n`);
  });
}

function lineOf(source: Source, stage: PlanStage, fingered: FingeredPart, at: number, alternatives: number): object {
  const { plan } = fingered;
  return {
    file: source.name,
    number: stage.score.number,
    title: stage.score.title,
    voice: plan.voice,
    playable: plan.playable,
    exact: plan.exact,
    cost: plan.cost,
    topTempo: plan.topTempo,
    tempo: plan.tempo,
    shifts: plan.shifts,
    travelMm: plan.travelMm,
    notes: plan.notes.map((note, i) => ({
      from: note.from + at,
      to: note.to + at,
      onset: note.onset,
      sounding: note.sounding,
      places: note.places,
      hand: note.hand,
      pinned: note.pinned,
      articulation: note.articulation,
      ...(alternatives > 0 ? { alternatives: alternativesOf(fingered, i, alternatives) } : {}),
    })),
    ...(plan.playable ? {} : { windows: plan.windows.map((window) => windowOf(window, at)) }),
  };
}

function windowOf(window: FingeredPart['plan']['windows'][number], at: number): object {
  const { from, to, code, also, needed, available, unit, slowdown } = window;
  return { from: from + at, to: to + at, code, ...(also.length > 0 ? { also } : {}), needed, available, unit, slowdown };
}

/** The `most` best other places of a note, each with what the part then costs more. */
function alternativesOf(fingered: FingeredPart, note: number, most: number): readonly object[] {
  const { part, result } = fingered;
  if (result.kind !== 'fingered') return [];
  return result
    .alternatives(note, most + 1)
    .slice(1)
    .map(({ places, hand, regret }) => ({ places: places.map((place) => planPlace(part, place)), hand, regret }));
}
