// A tune as it is played for practice: sounding notes, clicks and count-in on a line of whole notes, and the tempo map to seconds.
import type { Plan, PlanNote } from '../../arrangement/types.ts';
import { type BackingEvent, chordEvents, type Drone, droneEvents } from '../../score/backing.ts';
import { barNumber } from '../../score/bar-numbers.ts';
import { barOf, beatsIn, type Count, countAt, countsOf, into } from '../../score/counting.ts';
import { add, compare, fraction, mul, sub, toNumber, ZERO } from '../../score/fraction.ts';
import { withGraces } from '../../score/graces.ts';
import type { Fraction, NoteId, PlayedEvent, ScoreNote, Voice, VoiceId } from '../../score/types.ts';
import type { BarRange } from '../bars.ts';
import { unnamedTempo } from '../practice.ts';
import type { HandoutTune } from '../types.ts';

export interface PracticeOptions {
  /** Share of the tune's tempo, 1 = as written. */
  readonly speed: number;
  /** Speeds played one after the other, each counted in, instead of `speed`. */
  readonly steps?: readonly number[];
  /** Only these bars, by the numbers a player gives them, without repeats between; all if absent. */
  readonly bars?: BarRange | null;
  /** Full bars counted in; a pickup is taken off them. */
  readonly countIn: number;
  /** Beats that click all through. */
  readonly click: 'off' | 'all' | 'downbeats' | 'backbeats';
  /** Whether the bass sounds an octave higher, for small loudspeakers. */
  readonly register: 'as-sounding' | 'octave-up';
  /** Soft chords from the chord symbols; off if absent. */
  readonly chords?: 'off' | 'soft';
  /** The key's root, alone or with its fifth; off if absent. */
  readonly drone?: 'off' | Drone;
}

/** A sounding note. Onset and duration in whole notes from the count-in's start. */
export interface SoundNote {
  readonly note: NoteId;
  readonly voice: VoiceId;
  readonly onset: Fraction;
  readonly duration: Fraction;
  /** Sounding MIDI number. */
  readonly midi: number;
  /** 0 to 1. */
  readonly loudness: number;
  readonly attack: 'pluck' | 'soft';
}

export interface Click {
  readonly onset: Fraction;
  readonly accent: 'strong' | 'weak';
}

export interface Timeline {
  readonly notes: readonly SoundNote[];
  readonly clicks: readonly Click[];
  /** Chords and drone. */
  readonly backing: readonly BackingEvent[];
  /** Where the music begins, after the count-in. */
  readonly start: Fraction;
  readonly end: Fraction;
  /** Sorted; the first stands at 0. Quarter notes a minute, the speed applied. */
  readonly tempos: readonly { readonly onset: Fraction; readonly quarters: number }[];
}

/** Loudness by how a note begins: accents stand out, hammered and pulled notes are weaker than plucked ones (trade facts, a judgement). */
const loudness = { plain: 0.72, accented: 0.95, slurred: 0.5, dead: 0.35 } as const;

/** Lays a tune out for playing: once, or once a step, one after the other. */
export function timelineOf(tune: HandoutTune, options: PracticeOptions): Timeline {
  const passes = (options.steps ?? [options.speed]).map((speed) => passOf(tune, { ...options, speed }));
  return passes.slice(1).reduce(followedBy, passes[0] ?? passOf(tune, options));
}

function followedBy(first: Timeline, next: Timeline): Timeline {
  const later = <T extends { readonly onset: Fraction }>(events: readonly T[]): readonly T[] =>
    events.map((event) => ({ ...event, onset: add(event.onset, first.end) }));
  return {
    notes: [...first.notes, ...later(next.notes)],
    clicks: [...first.clicks, ...later(next.clicks)],
    backing: [...first.backing, ...later(next.backing)],
    start: first.start,
    end: add(first.end, next.end),
    tempos: [...first.tempos, ...later(next.tempos)],
  };
}

/** One time through, or through the bars asked. */
function passOf(tune: HandoutTune, options: PracticeOptions): Timeline {
  const asked = windowOf(tune, options.bars ?? null);
  const counts = countsOf(tune.score, tune.played);
  const first = countAt(counts, asked.from);
  const start = countInLength(first, options, asked);
  const notes = withGraces(tune.score, tune.played).flatMap(({ voice, events }) => voiceNotes(tune, voice, events, options));
  const inside = <T extends { readonly onset: Fraction }>(events: readonly T[]): readonly T[] =>
    events
      .filter(({ onset }) => compare(onset, asked.from) >= 0 && compare(onset, asked.to) < 0)
      .map((event) => ({ ...event, onset: add(sub(event.onset, asked.from), start) }));
  return {
    notes: [...inside(notes)].sort(byOnset),
    clicks: [...countIn(first, start), ...inside(clicks(counts, options, tune.played.end))],
    backing: inside(backingOf(tune, options).flatMap((event) => clipped(event, asked))),
    start,
    end: add(sub(asked.to, asked.from), start),
    tempos: temposOf(tune, start, options.speed, asked),
  };
}

/** The chords and the drone asked for. */
function backingOf({ score, played }: HandoutTune, { chords = 'off', drone = 'off' }: PracticeOptions): readonly BackingEvent[] {
  return [...(chords === 'off' ? [] : chordEvents(score, played)), ...(drone === 'off' ? [] : droneEvents(score, played, drone))];
}

/** Why the chords or the drone asked for cannot be played, or null. */
export function backingProblem({ score, played }: HandoutTune, { chords = 'off', drone = 'off' }: PracticeOptions): string | null {
  if (chords !== 'off' && chordEvents(score, played).length === 0)
    return 'it has no chord symbols that could be played; write them before notes ("G"G,2) or leave out the chords.';
  if (drone !== 'off' && droneEvents(score, played, drone).length === 0)
    return 'it names no key for a drone; write one (K:G) or leave out the drone.';
  return null;
}

/** The part of a sound that falls in the window: a drone may begin long before it. */
function clipped(event: BackingEvent, { from, to }: Window): readonly BackingEvent[] {
  const onset = compare(event.onset, from) < 0 ? from : event.onset;
  const end = add(event.onset, event.duration);
  const until = compare(end, to) > 0 ? to : end;
  return compare(onset, until) < 0 ? [{ ...event, onset, duration: sub(until, onset) }] : [];
}

/** A stretch of played time, in whole notes. */
interface Window {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** Where bars sound first one after the other; the whole tune if none are asked or it has no such bars. */
function windowOf(tune: HandoutTune, bars: BarRange | null): Window {
  const whole = { from: ZERO, to: tune.played.end };
  const voice = leadVoice(tune);
  if (bars === null || voice === undefined) return whole;
  const order = tune.played.voices.find((played) => played.voice === voice.id)?.order ?? [];
  // The shortest way that leads through them: a repeat between the two is not played.
  const numbers = order.map(({ bar }) => barNumber(voice, bar));
  const last = numbers.indexOf(bars.last, Math.max(0, numbers.indexOf(bars.first)));
  const first = numbers.lastIndexOf(bars.first, last);
  if (first < 0 || last < 0) return whole;
  return { from: order[first]!.onset, to: order[last + 1]?.onset ?? tune.played.end };
}

const byOnset = (a: SoundNote, b: SoundNote): number => compare(a.onset, b.onset) || a.midi - b.midi;

/** Seconds from the count-in's start to a place on the timeline. */
export function secondsAt(timeline: Pick<Timeline, 'tempos'>, at: Fraction): number {
  let seconds = 0;
  for (const [i, tempo] of timeline.tempos.entries()) {
    const next = timeline.tempos[i + 1];
    const until = next && compare(next.onset, at) < 0 ? next.onset : at;
    seconds += (toNumber(sub(until, tempo.onset)) * 4 * 60) / tempo.quarters;
    if (until === at) break;
  }
  return seconds;
}

function temposOf(tune: HandoutTune, start: Fraction, speed: number, asked: Window): Timeline['tempos'] {
  const written = tune.played.tempos
    .filter(({ onset }) => compare(onset, asked.to) < 0)
    .map(({ onset, beat, bpm }) => ({ onset, quarters: bpm * toNumber(beat) * 4 * speed }));
  const holds = written.filter(({ onset }) => compare(onset, asked.from) <= 0).at(-1);
  const later = written.filter(({ onset }) => compare(onset, asked.from) > 0);
  // The count-in takes the tempo the music begins with.
  return [
    { onset: ZERO, quarters: holds?.quarters ?? unnamedTempo.bpm * speed },
    ...later.map((tempo) => ({ ...tempo, onset: add(sub(tempo.onset, asked.from), start) })),
  ];
}

/** The voice whose bars are numbered: the first with bars. */
const leadVoice = (tune: HandoutTune): Voice | undefined => tune.score.voices.find((voice) => voice.bars.length > 0);

/** Full bars, less what is played of the bar that the music begins in the middle of. */
function countInLength(count: Count | undefined, { countIn }: PracticeOptions, { from }: Window): Fraction {
  if (count === undefined || countIn === 0) return ZERO;
  const full = mul(barOf(count), fraction(countIn, 1));
  const gone = into(count, from);
  return compare(gone, ZERO) > 0 ? sub(full, sub(barOf(count), gone)) : full;
}

function countIn(count: Count | undefined, length: Fraction): readonly Click[] {
  const found: Click[] = [];
  for (let i = 0, at = ZERO; count !== undefined && compare(at, length) < 0; at = mul(count.beat, fraction(++i, 1)))
    found.push({ onset: at, accent: i % count.perBar === 0 ? 'strong' : 'weak' });
  return found;
}

function clicks(counts: readonly Count[], { click }: PracticeOptions, end: Fraction): readonly Click[] {
  if (click === 'off') return [];
  const wanted = (index: number): boolean => click === 'all' || index % 2 === (click === 'backbeats' ? 1 : 0);
  return beatsIn(counts, end, click === 'all' ? 'beat' : 'step')
    .filter(({ index }) => wanted(index))
    .map(({ at, index }): Click => ({ onset: at, accent: index === 0 ? 'strong' : 'weak' }));
}

function voiceNotes(tune: HandoutTune, id: VoiceId, events: readonly PlayedEvent[], options: PracticeOptions): readonly SoundNote[] {
  const written = new Map((tune.score.voices.find((voice) => voice.id === id)?.notes ?? []).map((note) => [note.id, note]));
  const plan = tune.plans.find((p) => p.voice === id) ?? null;
  const planned = new Map(plan?.notes.map((note) => [note.id, note]));
  return events.map((event) => {
    const note = written.get(event.note);
    const duration = shortened(event.duration, note);
    return {
      note: event.note,
      voice: id,
      onset: event.onset,
      duration,
      midi: pitchOf(event, plan, planned, options),
      ...force(note, planned.get(event.note)),
    };
  });
}

const shortened = (duration: Fraction, note: ScoreNote | undefined): Fraction =>
  note?.marks.some((mark) => mark.kind === 'decoration' && (mark.name === '.' || mark.name === 'staccato'))
    ? mul(duration, fraction(1, 2))
    : duration;

/** The bass sounds as its plan says (an octave below the text); a melody as written. */
function pitchOf(event: PlayedEvent, plan: Plan | null, planned: ReadonlyMap<NoteId, PlanNote>, options: PracticeOptions): number {
  if (plan === null) return event.midi;
  const midi = planned.get(event.note)?.sounding[event.head] ?? event.midi - 12;
  return options.register === 'octave-up' ? midi + 12 : midi;
}

function force(note: ScoreNote | undefined, planned: PlanNote | undefined): Pick<SoundNote, 'loudness' | 'attack'> {
  const slurred = planned?.attack === 'hammer' || planned?.attack === 'pull' || planned?.attack === 'glide';
  if (slurred) return { loudness: loudness.slurred, attack: 'soft' };
  if (planned?.attack === 'dead') return { loudness: loudness.dead, attack: 'soft' };
  const accented = note?.marks.some(
    (mark) => mark.kind === 'decoration' && (mark.name === '>' || mark.name === 'accent' || mark.name === 'L'),
  );
  return { loudness: accented ? loudness.accented : loudness.plain, attack: 'pluck' };
}
