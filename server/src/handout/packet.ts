// The first page of a lesson packet: who practises what, which bars, at which tempos, with which rests.

import { noteValueName } from '../score/note-values.ts';
import { type BarRange, barsName } from './bars.ts';
import type { FrontItem } from './page/front.ts';
import type { FrontOf } from './page/make.ts';
import { clockText, secondsOf, tuneTempo, unnamedTempo } from './practice.ts';
import type { HandoutTune } from './types.ts';
import { caution, topTempoText } from './words.ts';

export interface PacketTune {
  readonly tune: HandoutTune;
  readonly focus: readonly BarRange[];
  /** Beats a minute in the tune's beat, in the order played. */
  readonly tempos: readonly number[];
  /** How often the bars are played at each tempo. */
  readonly times: number;
  /** Rest after each tempo, in seconds. */
  readonly rest: number;
  readonly note: string;
  /** Names of its track files. */
  readonly tracks: readonly string[];
}

export interface Packet {
  /** Initials; empty for nobody in particular. */
  readonly player: string;
  readonly date: string;
  readonly note: string;
  readonly tunes: readonly PacketTune[];
}

/** The plan for the player, as a front page. */
export const packetFront =
  ({ player, date, note, tunes }: Packet): FrontOf =>
  (pageOf) => ({
    title: packetTitle(player),
    under: date,
    items: [
      ...(note === '' ? [] : [text(note)]),
      ...tunes.flatMap((tune, i) => tuneItems(tune, i + 1, pageOf(i))),
      heading('Take care'),
      text(caution),
    ],
  });

export const packetTitle = (player: string): string => (player === '' ? 'Practice' : `Practice for ${player}`);

const heading = (words: string): FrontItem => ({ kind: 'heading', text: words });
const text = (words: string): FrontItem => ({ kind: 'text', text: words });

function tuneItems(entry: PacketTune, number: number, page: number): readonly FrontItem[] {
  const { tune, focus, tempos, times, rest, note, tracks } = entry;
  const beat = noteValueName((tuneTempo(tune) ?? unnamedTempo).beat);
  const climb = `${beat} = ${tempos.join(', ')}`;
  const breath = rest === 0 ? '' : ` Rest ${rest} seconds after each tempo, hands off the string.`;
  const tops = [...new Set(tune.plans.map(topTempoText))].filter((each) => each !== '').map((each) => text(`${each}.`));
  return [
    heading(`${number}. ${tune.score.title}, page ${page}`),
    ...(note === '' ? [] : [text(note)]),
    ...focus.map((bars) => text(`${capital(barsName(bars))}: ${climb}, ${timesText(times)} at each tempo.${breath}`)),
    text(
      `Whole tune: ${climb}; once through takes ${clockText(secondsOf(tune))} at the tempo of the page.${focus.length === 0 ? breath : ''}`,
    ),
    ...tops,
    text(`Tracks: ${tracks.join(', ')}.`),
  ];
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const timesText = (times: number): string => (times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`);
