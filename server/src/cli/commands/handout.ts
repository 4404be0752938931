// `bullfiddle handout`: pages, text and sound of the tunes of a book, written to a folder.
import { basename } from 'node:path';
import { planStage, scoreStage } from '../../arrangement/index.ts';
import type { FileConfig, PlanStage } from '../../arrangement/types.ts';
import { makeTables, type TableCache } from '../../fingering/index.ts';
import type { ExportOptions, FontBook, HandoutTune } from '../../handout/index.ts';
import { inputOptions, readArguments, type Values } from '../arguments.ts';
import { tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { type Configs, configsOf, settingsOrWord } from '../config.ts';
import { type FileNames, fileNames } from '../output/file-names.ts';
import { fontsOf } from '../output/fonts.ts';
import { handoutTune, keep, progress } from '../output/keep.ts';
import { missingToPublish } from '../output/publish.ts';
import { type TuneSource, type Wanted, writers } from '../output/writers.ts';
import { practiceOf } from '../practice.ts';
import { usageError } from '../run.ts';
import { bookOf, readSources, type Source } from '../sources.ts';

const formats = Object.keys(writers) as (keyof typeof writers)[];

/** Formats painted from the same pages. */
const onPages: readonly (keyof typeof writers)[] = ['pdf', 'html', 'svg', 'png'];

const options = {
  ...inputOptions,
  out: { kind: 'text', what: 'a folder' },
  format: { kind: 'choices', choices: formats },
  tune: { kind: 'number', least: 0, most: 1_000_000 },
  paper: { kind: 'choice', choices: ['a4', 'letter'] },
  density: { kind: 'choice', choices: ['all', 'changes', 'pins'] },
  rhythm: { kind: 'flag' },
  date: { kind: 'text', what: 'a day like 2026-01-31' },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
  speed: { kind: 'number', least: 0.2, most: 2, step: 0.01 },
  'count-in': { kind: 'number', least: 0, most: 4 },
  click: { kind: 'choice', choices: ['off', 'all', 'downbeats', 'backbeats'] },
  'octave-up': { kind: 'flag' },
  chords: { kind: 'flag' },
  drone: { kind: 'choice', choices: ['root', 'fifth'] },
  steps: { kind: 'text', what: 'tempos like 60,66,72' },
  bars: { kind: 'text', what: 'bars like 3-6' },
  part: { kind: 'text', what: 'the label of a part, like B' },
  times: { kind: 'number', least: 1, most: 20 },
  publish: { kind: 'flag' },
} as const;

type Asked = Values<typeof options>;

export const handout: Command = {
  name: 'handout',
  summary: 'Write pages and practice tracks: PDF, HTML, SVG, PNG, MIDI, WAV, text tab, MusicXML.',
  usage: `bullfiddle handout FILE... --out DIR [--format LIST] [options]

  --out DIR          the folder to write to; made if it is not there
  --format LIST      ${formats.join(',')} (default pdf)
  --tune N           only the tune with X:N
  --paper a4|letter  --density all|changes|pins   as in bullfiddle.json if not given
  --rhythm           stems, beams and rests under the tab, so that it can be read alone
  --date DAY         the day printed at the foot (default: the file's last commit)
  --for NAME         finger for this player of bullfiddle.json
  --speed S          tracks at this share of the tempo, 0.2 to 2 (default 1)
  --count-in BARS    bars counted in (default 1)
  --click off|all|downbeats|backbeats   clicks under the tune (default off)
  --octave-up        the bass an octave higher, for small loudspeakers
  --chords           soft chords from the chord symbols, on 2 and 4 or where the meter has them
  --drone root|fifth the key's root held under the tune, alone or with its fifth
  --steps LIST       tracks at these tempos one after the other (60,66,72: beats a minute in the tune's beat)
  --bars 3-6, --part B   tracks of these bars only
  --times N          tracks N times at each tempo (default 1)
  --publish          write only if each tune has title, origin, rights, every finger and string, and no error
  --stdin-name NAME  what to call standard input (-)`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(handout, read.message, io);
    if (read.files.length === 0) return usageError(handout, 'name a tune file or a folder.', io);
    if (read.values.out === null) return usageError(handout, 'say where to write: --out DIR.', io);
    return writeAll(read.files, read.values, read.values.out, io);
  },
};

/** What holds for the whole run. */
interface Run {
  readonly asked: Asked;
  readonly out: string;
  readonly io: Io;
  readonly configs: Configs;
  readonly tables: TableCache;
  readonly names: FileNames;
  readonly fonts: () => Promise<FontBook>;
}

async function writeAll(files: readonly string[], asked: Asked, out: string, io: Io): Promise<ExitCode> {
  const { sources, failed } = await readSources(files, io, asked['stdin-name']);
  const run: Run = { asked, out, io, configs: configsOf(io), tables: makeTables(tableBytes), names: fileNames(), fonts: fontsOf(io) };
  let bad = failed;
  for (const source of sources) bad = !(await writeSource(source, run)) || bad;
  return bad ? 2 : 0;
}

/** Writes all formats of one file; false if something went wrong (and was said). */
async function writeSource(source: Source, run: Run): Promise<boolean> {
  const { asked, io } = run;
  const config = await settingsOrWord(source, asked.for, run.configs, io);
  if (config === null) return false;
  const file = await run.configs.fileFor(source.path);
  // The history is asked for first: git works beside us.
  const asking = io.history(source.path);
  const tunes = tunesOf(source, run, config);
  if (asked.publish && !mayPublish(source, tunes.stages(), io)) return false;
  if (tunes.count === 0) {
    io.err(`${source.name}: ${asked.tune === null ? 'no tune in it (a tune begins with X:)' : `no tune with X:${asked.tune}`}.\n`);
    return false;
  }
  const history = await asking;
  const credit = { by: file.handout.credit, version: history?.version ?? '', date: asked.date ?? history?.date ?? '' };
  const look: ExportOptions = {
    paper: asked.paper ?? file.handout.paper,
    density: asked.density ?? file.handout.density,
    rhythm: asked.rhythm ? 'stems' : 'none',
    credit,
  };
  const playing = playingOf(asked);
  const formats = (asked.format ?? ['pdf']) as (keyof typeof writers)[];
  const wanted: Wanted = {
    tunes,
    pages: formats.filter((format) => onPages.includes(format)).length > 1 ? 'kept' : 'passing',
    look,
    stem: stemOf(source.name),
    practice: practiceOf(asked, playing),
    page: playing,
    fonts: run.fonts,
    told: progress(source.name, tunes.count, io),
  };
  let good = true;
  for (const format of formats) good = (await writeFormat(source, format, wanted, run)) && good;
  return good;
}

async function writeFormat(source: Source, format: keyof typeof writers, wanted: Wanted, run: Run): Promise<boolean> {
  let good = true;
  const say = (message: string): void => {
    good = false;
    run.io.err(`${source.name}: ${message}\n`);
  };
  for await (const made of writers[format](wanted)) good = (await keep(made, run.out, run.names, say, run.io)) && good;
  return good;
}

/** The tunes asked for of a file, each fingered when its turn comes. */
function tunesOf(source: Source, run: Run, config: FileConfig): TuneSource & { stages(): Iterable<PlanStage> } {
  const book = bookOf(source);
  const wanted = [...book.tunes.keys()].filter((i) => run.asked.tune === null || scoreStage(book, i).score.number === run.asked.tune);
  const stages = function* (): Iterable<PlanStage> {
    for (const index of wanted) yield planStage(book, index, config, run.tables);
  };
  const tunes = function* (): Iterator<HandoutTune> {
    for (const stage of stages()) yield handoutTune(stage);
  };
  return { count: wanted.length, stages, [Symbol.iterator]: tunes };
}

/** Says what keeps the tunes of a file from being published; true if nothing does. */
function mayPublish(source: Source, stages: Iterable<PlanStage>, io: Io): boolean {
  const missing = [...stages].flatMap((stage) =>
    missingToPublish(stage).map((text) => `${source.name}: "${stage.score.title}": ${text}\n`),
  );
  for (const line of missing) io.err(line);
  if (missing.length > 0) io.err(`${source.name}: not published; nothing was written.\n`);
  return missing.length === 0;
}

const stemOf = (name: string): string => (name === '-' ? 'handout' : basename(name).replace(/\.abc$/i, ''));

const playingOf = (asked: Asked): Wanted['page'] => ({
  speed: asked.speed ?? 1,
  countIn: asked['count-in'] ?? 1,
  click: asked.click ?? 'off',
  register: asked['octave-up'] ? 'octave-up' : 'as-sounding',
  chords: asked.chords ? 'soft' : 'off',
  drone: asked.drone ?? 'off',
});
