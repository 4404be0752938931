// `bullfiddle packet`: a lesson packet for one player: the plan and the sheets in one PDF, and the tracks to practise with.
import { basename } from 'node:path';
import type { HandoutTune, PacketTune, PracticeOptions } from '../../handout/index.ts';
import { type Chosen, chooser } from '../chosen.ts';
import type { Command, ExitCode, Io } from '../command.ts';
import { readList } from '../list-file.ts';
import { keepAll, type ListCall, listCall, lookOf } from '../listed.ts';
import { type FileNames, fileNames, slugged } from '../output/file-names.ts';
import { fontsOf } from '../output/fonts.ts';
import { handoutTune } from '../output/keep.ts';
import { type Made, pdfOf } from '../output/writers.ts';
import { type PacketEntry, type PacketFile, readPacket } from '../packet-file.ts';
import { outsideTune } from '../practice.ts';

export const packet: Command = {
  name: 'packet',
  summary: 'Write a lesson packet: a plan, the sheets and practice tracks for one player.',
  usage: `bullfiddle packet FILE.json --out DIR [--paper a4|letter] [--rhythm] [--date DAY]

  FILE.json   { "player": "T.B.", "date": "2026-01-31", "note": "...", "tunes": [
                { "file": "tune.abc", "version": "low", "bars": ["3-4"], "tempos": [60, 66], "times": 2, "rest": 60, "note": "..." } ] }
              only "tunes" and "file" are needed; bars and tempos are suggested from the fingering where not given
  --out DIR   the folder to write to; made if it is not there
  --rhythm    stems, beams and rests under the tab, so that it can be read alone`,
  async run(args, io) {
    const call = listCall(packet, args, io);
    return call === null ? 2 : writePacket(call, io);
  },
};

/** A tune of the packet with what is played of it. */
interface Practised extends PacketTune {
  readonly chosen: Chosen;
  readonly stem: string;
}

async function writePacket(call: ListCall, io: Io): Promise<ExitCode> {
  const { path } = call;
  const say = (message: string): void => io.err(`${path}: ${message}\n`);
  const file = await readList(path, readPacket, say, io);
  if (file === null) return 2;
  const practised = await practisedOf(path, file, say, io);
  if (practised === null) return 2;
  return keepAll(filesOf(call, file, practised, io), call, say, io);
}

/** All tunes of the packet ready to play; null, with the reasons said, if one is not to be had. */
async function practisedOf(path: string, file: PacketFile, say: (message: string) => void, io: Io): Promise<readonly Practised[] | null> {
  const choose = chooser(path, file.player, io);
  const names = fileNames();
  const found: Practised[] = [];
  for (const [i, entry] of file.tunes.entries()) {
    const chosen = await choose(entry.name);
    const made = 'problem' in chosen ? chosen : await practisedTune(entry, chosen, names);
    if ('problem' in made) say(`tunes[${i}]: ${made.problem}`);
    else found.push(made);
  }
  return found.length === file.tunes.length ? found : null;
}

/** Stretches suggested where the file names none. */
const mostFocus = 2;

async function practisedTune(entry: PacketEntry, chosen: Chosen, names: FileNames): Promise<Practised | { readonly problem: string }> {
  const { suggestedFocus, suggestedTempos } = await import('../../handout/index.ts');
  const tune = handoutTune(chosen.stage);
  for (const range of entry.bars ?? []) {
    const outside = await outsideTune(range, tune);
    if (outside !== null) return { problem: outside };
  }
  const focus = entry.bars ?? suggestedFocus(tune, mostFocus);
  const stem = names.unique(`${slugged(tune.score.title)}.wav`).replace(/\.wav$/, '');
  const tracks = [`${stem}.mid`, `${stem}.wav`, ...focus.map(({ first, last }) => `${stem}-bars-${first}-${last}.wav`)];
  return {
    tune,
    focus,
    tempos: entry.tempos?.length ? entry.tempos : suggestedTempos(tune),
    times: entry.times ?? 2,
    rest: entry.rest ?? 60,
    note: entry.note ?? '',
    tracks,
    chosen,
    stem,
  };
}

async function* filesOf(call: ListCall, file: PacketFile, tunes: readonly Practised[], io: Io): AsyncIterable<Made> {
  const { flowOf, packetFront, packetTitle } = await import('../../handout/index.ts');
  const look = await lookOf(call, file.date, tunes[0]!.chosen, io);
  const { date } = look.credit;
  const fonts = await fontsOf(io)();
  const front = packetFront({ player: file.player ?? '', date, note: file.note ?? '', tunes });
  const book = tunes.map(({ tune }) => ({ tune, starts: 'page' }) as const);
  const title = packetTitle(file.player ?? '');
  const flow = flowOf({ title, front, tunes: book, fonts, options: look, told: () => {} });
  yield* pdfOf(basename(call.path).replace(/(\.json)?$/i, '.pdf'), flow, fonts);
  for (const tune of tunes) yield* tracksOf(tune);
}

const playing: PracticeOptions = { speed: 1, countIn: 1, click: 'off', register: 'as-sounding' };

/** The tune as written as MIDI; the tune, and each stretch of bars, as sound at the steps of tempo. */
async function* tracksOf({ tune, focus, tempos, times, stem }: Practised): AsyncIterable<Made> {
  const { midiFile, tuneTempo, unnamedTempo, wavFile } = await import('../../handout/index.ts');
  const { bpm } = tuneTempo(tune) ?? unnamedTempo;
  const steps = tempos.map((tempo) => tempo / bpm);
  const sound = (practice: PracticeOptions, name: string): Made => trackOf(tune, name, wavFile(tune, practice));
  yield { kind: 'file', name: `${stem}.mid`, bytes: midiFile(tune, playing) };
  yield sound({ ...playing, steps }, `${stem}.wav`);
  const often = steps.flatMap((step) => Array.from({ length: times }, () => step));
  for (const bars of focus) yield sound({ ...playing, steps: often, bars }, `${stem}-bars-${bars.first}-${bars.last}.wav`);
}

const trackOf = (tune: HandoutTune, name: string, made: Uint8Array | { readonly problem: string }): Made =>
  'problem' in made ? { kind: 'problem', message: `"${tune.score.title}": ${made.problem}` } : { kind: 'file', name, bytes: made };
