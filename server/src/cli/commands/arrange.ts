// `bullfiddle arrange`: low and high bass versions of the melodies in a file, or the made ones brought up to date.
import { readBook } from '../../abc/index.ts';
import {
  type ArrangeRequest,
  type ArrangeTools,
  arrange as arrangeTune,
  backing,
  partStage,
  slugFor,
  sourceOf,
  sourceTag,
  sourceTagEdits,
  updateVersion,
  versionOf,
} from '../../arrangement/index.ts';
import type { PartStage, ScoreStage } from '../../arrangement/types.ts';
import { makeTables } from '../../fingering/index.ts';
import { parse } from '../../score/fraction.ts';
import { inputOptions, readArguments, type Values } from '../arguments.ts';
import { type OpenBook, openBook, tableBytes } from '../book.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { usageError } from '../run.ts';

const options = {
  ...inputOptions,
  version: { kind: 'choice', choices: ['low', 'high'] },
  tune: { kind: 'text', what: 'the number or name of a tune' },
  key: { kind: 'text', what: 'a tonic, as G or Bb' },
  tempo: { kind: 'text', what: 'beat and beats a minute, as 1/2=96' },
  thin: { kind: 'choice', choices: ['none', 'slur', 'run', 'quarter', 'auto'] },
  pins: { kind: 'choice', choices: ['none', 'changes', 'all'] },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
  backing: { kind: 'flag' },
  update: { kind: 'flag' },
  report: { kind: 'flag' },
} as const;

type Asked = Values<typeof options>;

export const arrange: Command = {
  name: 'arrange',
  summary: 'Make a fingered low or high bass version of a melody, or a bass line from its chords; text on standard output.',
  usage: `bullfiddle arrange FILE --version low|high [--tune ID] [--key K] [--tempo 1/2=N] [--thin none|slur|run|quarter|auto]
                   [--pins none|changes|all] [--update] [--report] [--for NAME] [--stdin-name NAME]
       bullfiddle arrange FILE --backing [--tune ID] [--key K] [--tempo 1/2=N] [--pins none|changes|all]

  --backing     a bass line to go with the melody instead: roots and fifths of its chord symbols. A melody without any
                gets suggested chords, written as text with a question mark
  --tune ID     number (X:) or name (tune=) of the melody; without it every melody of the file
  --key K       move it to this key; the session's key is kept otherwise
  --tempo       the tempo to be met, instead of the tune's own
  --thin        how it may be made to meet the tempo: not at all, by slurs, by leaving out runs, quarters only,
                or each phrase by the first of these that works (auto, the default)
  --pins        pins written into the result: none, where something changes (the default), all
  --update      print the whole file with its made versions brought up to date; what a player changed stays.
                Parts that are new in the melody are added. Exit 1 if a part was changed on both sides
  --report      print what became of each note as JSON instead of the text`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(arrange, read.message, io);
    const { files, values } = read;
    if (files.length !== 1) return usageError(arrange, 'name one tune file.', io);
    if (values.backing && (values.version !== null || values.update || values.report || values.thin !== null))
      return usageError(arrange, '--backing goes with --tune, --key, --tempo and --pins only.', io);
    if (values.version === null && !values.backing) return usageError(arrange, '--version is missing: low or high?', io);
    const tempo = tempoOf(values.tempo);
    if (tempo === undefined) return usageError(arrange, `--tempo cannot be "${values.tempo}"; write it as 1/2=96.`, io);
    if (values.key !== null && tonicOf(values.key) === null)
      return usageError(arrange, `--key cannot be "${values.key}"; write a tonic, as G or Bb.`, io);
    const open = await openBook(files[0]!, values.for, values['stdin-name'], io);
    if (open === null) return 2;
    const tools = { read: readBook, tables: makeTables(tableBytes), config: open.config };
    const how = { tempo, thin: values.thin ?? 'auto', pins: values.pins ?? 'changes' } as const;
    if (values.backing) return backAll(open, values, how, tools, io);
    return values.update ? updateAll(open, values, how, tools, io) : arrangeAll(open, values, how, tools, io);
  },
};

type How = Pick<ArrangeRequest, 'tempo' | 'thin' | 'pins'>;

/** null: none asked for; undefined: it cannot be read. */
function tempoOf(text: string | null): ArrangeRequest['tempo'] | undefined {
  if (text === null) return null;
  const [left = '', right = ''] = text.split('=');
  const beat = parse(left);
  const bpm = Number(right);
  return beat !== null && beat.num > 0 && Number.isFinite(bpm) && bpm > 0 && bpm <= 1000 ? { beat, bpm } : undefined;
}

const semitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

function tonicOf(text: string): number | null {
  const match = /^([A-G])([#b]?)m?$/.exec(text);
  return match === null ? null : semitones[match[1]!]! + (match[2] === '#' ? 1 : match[2] === 'b' ? -1 : 0);
}

/** Semitones to the asked key, the nearer way. */
function shiftTo(source: ScoreStage, key: string | null): number {
  const goal = key === null ? null : tonicOf(key);
  const tonic = source.score.key.tonic;
  if (goal === null || tonic === null) return 0;
  const up = (((goal - semitones[tonic.letter]! - tonic.alter) % 12) + 12) % 12;
  return up > 6 ? up - 12 : up;
}

/** The tunes that may be arranged: sources and tunes that declare no version, unless one is named. */
function melodiesOf(open: OpenBook, asked: Asked): readonly ScoreStage[] {
  const stages = open.book.tunes.map((_, i) => partStage(open.book, i, open.config));
  const named = (stage: ScoreStage): boolean => String(stage.score.number) === asked.tune || slugFor(stage) === asked.tune;
  const isSource = (stage: PartStage): boolean => versionOf(stage)?.version.startsWith('source') ?? stage.parts[0]?.kind === 'melody';
  return stages.filter((stage) => isSource(stage) && (asked.tune === null || named(stage)));
}

/** Melodies to work on; none is told. */
function chosenMelodies(open: OpenBook, asked: Asked, io: Io): readonly ScoreStage[] {
  const melodies = melodiesOf(open, asked);
  if (melodies.length === 0)
    io.err(`${open.source.name}: ${asked.tune === null ? 'there is no melody to arrange.' : `there is no melody "${asked.tune}".`}\n`);
  return melodies;
}

/** The first number (`X:`) that the book leaves free. */
const freeNumber = (open: OpenBook): number =>
  1 + Math.max(0, ...open.book.tunes.map((_, i) => partStage(open.book, i, open.config).score.number ?? 0));

function backAll(open: OpenBook, asked: Asked, how: How, tools: ArrangeTools, io: Io): ExitCode {
  const melodies = chosenMelodies(open, asked, io);
  const first = freeNumber(open);
  let code: ExitCode = melodies.length === 0 ? 2 : 0;
  melodies.forEach((source, i) => {
    const made = backing(source, { ...how, number: first + i, keyShift: shiftTo(source, asked.key) }, tools);
    const say = (message: string): void => io.err(`${open.source.name}: ${source.score.title}: ${message}\n`);
    if (made.kind === 'impossible') {
      say(made.message);
      code = 1;
      return;
    }
    if (made.chords === 'suggested')
      say('it has no chord symbols: those with a question mark are suggestions, made by rule from the melody.');
    io.out(`${i === 0 ? '' : '\n'}${made.text}`);
  });
  return code;
}

function arrangeAll(open: OpenBook, asked: Asked, how: How, tools: ArrangeTools, io: Io): ExitCode {
  const melodies = chosenMelodies(open, asked, io);
  if (melodies.length === 0) return 2;
  const first = freeNumber(open);
  let failed = false;
  melodies.forEach((source, i) => {
    const made = arrangeTune(source, { ...how, version: asked.version!, number: first + i, keyShift: shiftTo(source, asked.key) }, tools);
    if (made.kind === 'impossible') {
      io.err(`${open.source.name}: ${source.score.title}: ${made.message}\n`);
      failed = true;
      return;
    }
    if (sourceTagEdits(source).length > 0)
      io.err(
        `${open.source.name}: ${source.score.title}: put "${sourceTag(source)}" before its K: line, and its versions are kept in step with it.\n`,
      );
    for (const warning of made.warnings) io.err(`${open.source.name}: ${source.score.title}: ${warning}\n`);
    if (asked.report) io.out(`${JSON.stringify(reportOf(open, source, asked.version!, made))}\n`);
    else io.out(`${i === 0 ? '' : '\n'}${made.text}`);
  });
  return failed ? 1 : 0;
}

function reportOf(
  open: OpenBook,
  source: ScoreStage,
  version: string,
  made: Extract<ReturnType<typeof arrangeTune>, { kind: 'arranged' }>,
): object {
  const at = open.book.tunes[source.index]!.at;
  return {
    file: open.source.name,
    number: source.score.number,
    title: source.score.title,
    version,
    thinning: made.thinning,
    notes: made.report.map(({ from, to, bar, fate, below, thinning, why }) => ({
      from: from + at,
      to: to + at,
      bar,
      fate,
      below,
      thinning,
      why,
    })),
  };
}

/** The whole file with the made versions of the asked register brought up to date. */
function updateAll(open: OpenBook, asked: Asked, how: How, tools: ArrangeTools, io: Io): ExitCode {
  let code: ExitCode = 0;
  const first = open.book.tunes[0]?.at ?? open.source.text.length;
  const texts = open.book.tunes.map((_, i) => {
    const stage = partStage(open.book, i, open.config);
    const tag = versionOf(stage);
    const source = sourceOf(stage.siblings);
    const wanted = tag?.version.startsWith(asked.version!) === true && (asked.tune === null || tag.tune === asked.tune);
    if (!wanted || source === null) return stage.text;
    const updated = updateVersion(source, stage, how, tools);
    const say = (message: string): void => io.err(`${open.source.name}: ${stage.score.title}: ${message}\n`);
    if (updated.kind !== 'updated') {
      say(updated.message);
      if (updated.kind === 'impossible') code = 1;
      return stage.text;
    }
    for (const part of updated.parts) say(part.message);
    if (updated.parts.some((part) => part.state === 'conflict' || part.state === 'left')) code = 1;
    return updated.text;
  });
  io.out(open.source.text.slice(0, first) + texts.join(''));
  return code;
}
