// From a bass part to the engine's task: sounding pitches and integer microseconds.
import { makePlayer } from '../bass/index.ts';
import type { Setup } from '../bass/types.ts';
import type { Pin, Player, Task, TaskNote } from '../fingering/types.ts';
import { LONGEST_GRACE } from '../score/conventions.ts';
import { toNumber } from '../score/fraction.ts';
import type { Fraction } from '../score/types.ts';
import type { BassPart, HeadPin, PartNote } from './types.ts';

/** Without a tempo the shapes are judged at an easy pace, eighths of 250 ms (nothing is then judged on time). */
const untimedQuarter = 500_000;

/** The longest that a grace note may take, in microseconds, from the note it ornaments, as it sounds too. */
const graceMost = LONGEST_GRACE * 1000;

/** A tempo a part can be measured by: its own, or the easy pace told in the meter's beat. */
export function measuringTempo(part: BassPart): { readonly beat: Fraction; readonly bpm: number } {
  return part.tempo ?? { beat: part.beat, bpm: 60e6 / (untimedQuarter * 4 * toNumber(part.beat)) };
}

/** The task of fingering a part. */
export function toTask(part: BassPart): Task {
  const at = clockOf(part);
  const times = timesOf(part, at);
  const strings = part.setup.tuning.strings.map((string) => string.name);
  return {
    player: playerOf(part.setup),
    notes: part.notes.map(
      (note, i): TaskNote => ({
        pitches: note.sounding,
        ...times[i]!,
        articulation: note.articulation,
        pins: note.pins.map((pin) => toPin(pin, strings)),
        handStop: note.handStop,
        held: note.held,
      }),
    ),
    jumps: part.jumps.map(({ from, to, gap }) => ({ from, to, gap: gapTime(part, from, gap, times, at) })),
    breaks: part.breaks,
    timed: part.tempo === null ? 'untimed' : 'judged',
  };
}

const players = new WeakMap<Setup, Player>();

function playerOf(setup: Setup): Player {
  const known = players.get(setup);
  if (known !== undefined) return known;
  const made = makePlayer(setup);
  players.set(setup, made);
  return made;
}

function toPin(pin: HeadPin, strings: readonly string[]): Pin {
  const string = pin.string === null ? -1 : strings.indexOf(pin.string.value);
  return { finger: pin.finger?.value ?? null, string: string < 0 ? null : string, harmonic: pin.harmonic !== null };
}

type Clock = (onset: number) => number;

const wholeTime = (tempo: { readonly beat: Fraction; readonly bpm: number }): number => 60e6 / (tempo.bpm * toNumber(tempo.beat));

/** Time in microseconds (not rounded) of a place given in whole notes, over all tempos of the part. */
function clockOf(part: BassPart): Clock {
  const first = part.tempos[0];
  if (first === undefined) return (onset) => onset * wholeTime(measuringTempo(part));
  const stretches = [{ from: 0, time: 0, whole: wholeTime(first) }];
  for (const tempo of part.tempos) {
    const last = stretches.at(-1)!;
    const from = toNumber(tempo.onset);
    stretches.push({ from, time: last.time + (from - last.from) * last.whole, whole: wholeTime(tempo) });
  }
  return (onset) => {
    const here = stretches.findLast((s) => s.from <= onset) ?? stretches[0]!;
    return here.time + (onset - here.from) * here.whole;
  };
}

interface Time {
  readonly onset: number;
  readonly duration: number;
}

/** Onset and duration of each attack; graces take theirs from the start of the note they belong to. */
function timesOf(part: BassPart, at: Clock): readonly Time[] {
  const times: Time[] = [];
  let graces = 0;
  part.notes.forEach((note, i) => {
    if (note.note.kind === 'grace') {
      graces++;
      return;
    }
    pushGraces(times, part.notes.slice(i - graces, i), note, at);
    const start = at(toNumber(note.onset)) + graces * graceTime(graces, note, at);
    const end = at(toNumber(note.onset) + toNumber(note.duration));
    times.push({ onset: Math.round(start), duration: Math.round(end) - Math.round(start) });
    graces = 0;
  });
  pushGraces(times, part.notes.slice(part.notes.length - graces), null, at);
  return times;
}

/** What each of `count` graces before a note lasts: at most half of the note in all. */
function graceTime(count: number, main: PartNote | null, at: Clock): number {
  if (main === null || count === 0) return graceMost;
  const start = toNumber(main.onset);
  return Math.min(graceMost, (at(start + toNumber(main.duration)) - at(start)) / 2 / count);
}

function pushGraces(times: Time[], graces: readonly PartNote[], main: PartNote | null, at: Clock): void {
  const each = graceTime(graces.length, main, at);
  graces.forEach((grace, i) => {
    const onset = Math.round(at(toNumber((main ?? grace).onset)) + i * each);
    times.push({ onset, duration: Math.round(each) });
  });
}

/** Time from an attack to the one it jumps to, by the tempo that holds where it leaves. */
function gapTime(part: BassPart, from: number, gap: Fraction, times: readonly Time[], at: Clock): number {
  const start = toNumber(part.notes[from]!.onset);
  return Math.round(at(start + toNumber(gap)) - at(start)) - (times[from]!.onset - Math.round(at(start)));
}
