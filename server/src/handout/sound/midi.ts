// A tune as a Standard MIDI File (format 1): tempo track, one track a voice, clicks on the percussion channel. Times are exact.

import { add, toNumber } from '../../score/fraction.ts';
import type { MeterValue } from '../../score/index.ts';
import type { Fraction } from '../../score/types.ts';
import type { HandoutTune } from '../types.ts';
import { utf8 } from '../utf8.ts';
import { type PracticeOptions, type SoundNote, type Timeline, timelineOf } from './timeline.ts';

/** Ticks a quarter note: 2^5 * 3 * 5 * 7, so that 128ths and tuplets of 3, 5, 6 and 7 fall on whole ticks. */
const division = 3360;
const ticks = (at: Fraction): number => Math.round(toNumber(at) * 4 * division);

/** General MIDI programs (counted from 0): acoustic bass, violin, nylon guitar, strings; keys of wood blocks on channel 10. */
const programs = { bass: 32, melody: 40, chord: 24, drone: 48 } as const;
const blocks = { strong: 76, weak: 77 } as const;
const clickChannel = 9;
const backingVelocity = 40;

interface TrackEvent {
  readonly tick: number;
  /** Events of one tick: names and tempos, then note ends, then note starts. */
  readonly rank: 0 | 1 | 2;
  readonly bytes: readonly number[];
}

/** The file's bytes. */
export function midiFile(tune: HandoutTune, options: PracticeOptions): Uint8Array {
  const timeline = timelineOf(tune, options);
  const end = ticks(timeline.end);
  const voices = tune.score.voices.map((voice, i) => {
    const bass = tune.plans.some((plan) => plan.voice === voice.id);
    const channel = i % 15 < clickChannel ? i % 15 : (i % 15) + 1;
    const notes = timeline.notes.filter((note) => note.voice === voice.id);
    return track(
      [
        ...named(voice.properties.name ?? voice.id),
        program(channel, bass ? 'bass' : 'melody'),
        ...notes.flatMap((note) => noteEvents(note, channel)),
      ],
      end,
    );
  });
  const clicking = timeline.clicks.length > 0 ? [track([...named('Click'), ...timeline.clicks.flatMap(clickEvents)], end)] : [];
  const backing = backingTracks(timeline).map(({ kind, channel, events }) =>
    track([...named(kind === 'chord' ? 'Chords' : 'Drone'), program(channel, kind), ...events], end),
  );
  const tracks = [conductor(tune, timeline, end), ...voices, ...backing, ...clicking];
  return Uint8Array.from([...ascii('MThd'), ...uint32(6), ...uint16(1), ...uint16(tracks.length), ...uint16(division), ...tracks.flat()]);
}

function conductor(tune: HandoutTune, timeline: Timeline, end: number): readonly number[] {
  const tempos = timeline.tempos.map(({ onset, quarters }): TrackEvent => {
    const micros = Math.min(0xffffff, Math.round(60_000_000 / quarters));
    return { tick: ticks(onset), rank: 0, bytes: meta(0x51, uint32(micros).slice(1)) };
  });
  return track([...named(tune.score.title), ...meter(tune.score.meter), ...tempos], end);
}

function meter(value: MeterValue): readonly TrackEvent[] {
  if (value.kind === 'none') return [];
  const beats = value.beats.reduce((sum, n) => sum + n, 0);
  const power = Math.log2(value.unit);
  return Number.isInteger(power) && beats < 256 ? [{ tick: 0, rank: 0, bytes: meta(0x58, [beats, power, 24, 8]) }] : [];
}

const named = (name: string): readonly TrackEvent[] => [{ tick: 0, rank: 0, bytes: meta(0x03, [...utf8(name)]) }];

const program = (channel: number, kind: keyof typeof programs): TrackEvent => ({
  tick: 0,
  rank: 0,
  bytes: [0xc0 | channel, programs[kind]],
});

function noteEvents(note: SoundNote, channel: number): readonly TrackEvent[] {
  if (note.midi < 0 || note.midi > 127) return [];
  const [from, to] = [ticks(note.onset), ticks(note.onset) + Math.max(1, ticks(note.duration))];
  return [
    { tick: from, rank: 2, bytes: [0x90 | channel, note.midi, Math.round(note.loudness * 127)] },
    { tick: to, rank: 1, bytes: [0x80 | channel, note.midi, 0] },
  ];
}

/** Chords and drone on the last two channels, softer than any note of the tune. */
function backingTracks({ backing }: Timeline) {
  return (
    [
      ['chord', 14],
      ['drone', 15],
    ] as const
  ).flatMap(([kind, channel]) => {
    const events = backing.filter((event) => event.kind === kind).flatMap((event) => backingEvents(event, channel));
    return events.length > 0 ? [{ kind, channel, events }] : [];
  });
}

function backingEvents({ onset, duration, midi }: Timeline['backing'][number], channel: number): readonly TrackEvent[] {
  const [from, to] = [ticks(onset), ticks(add(onset, duration))];
  return midi.flatMap((key): readonly TrackEvent[] => [
    { tick: from, rank: 2, bytes: [0x90 | channel, key, backingVelocity] },
    { tick: to, rank: 1, bytes: [0x80 | channel, key, 0] },
  ]);
}

function clickEvents({ onset, accent }: Timeline['clicks'][number]): readonly TrackEvent[] {
  const from = ticks(onset);
  return [
    { tick: from, rank: 2, bytes: [0x90 | clickChannel, blocks[accent], accent === 'strong' ? 110 : 80] },
    { tick: from + division / 8, rank: 1, bytes: [0x80 | clickChannel, blocks[accent], 0] },
  ];
}

function track(events: readonly TrackEvent[], end: number): readonly number[] {
  const sorted = [...events].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  const body: number[] = [];
  let at = 0;
  for (const event of sorted) {
    body.push(...variable(event.tick - at), ...event.bytes);
    at = event.tick;
  }
  body.push(...variable(Math.max(0, end - at)), ...meta(0x2f, []));
  return [...ascii('MTrk'), ...uint32(body.length), ...body];
}

const meta = (kind: number, data: readonly number[]): readonly number[] => [0xff, kind, ...variable(data.length), ...data];
const ascii = (text: string): readonly number[] => [...text].map((letter) => letter.charCodeAt(0));
const uint16 = (n: number): readonly number[] => [(n >> 8) & 255, n & 255];
const uint32 = (n: number): readonly number[] => [(n >>> 24) & 255, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

/** Variable-length quantity: seven bits a byte, highest first, all but the last with the top bit set. */
function variable(n: number): readonly number[] {
  const bytes = [n & 127];
  for (let rest = Math.floor(n / 128); rest > 0; rest = Math.floor(rest / 128)) bytes.unshift((rest & 127) | 128);
  return bytes;
}
