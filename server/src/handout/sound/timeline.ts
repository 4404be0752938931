// A tune as it is played for practice: sounding notes, clicks and count-in on a line of whole notes, and the tempo map to seconds.
import type { Plan, PlanNote } from '../../arrangement/types.ts';
import { add, compare, fraction, mul, sub, toNumber, ZERO } from '../../score/fraction.ts';
import type { Fraction, NoteId, PlayedEvent, ScoreNote, Voice, VoiceId } from '../../score/types.ts';
import { beatOf, beatsIn, isPickup } from '../bars.ts';
import type { HandoutTune } from '../types.ts';

export interface PracticeOptions {
  /** Share of the tune's tempo, 1 = as written. */
  readonly speed: number;
  /** Full bars counted in; a pickup is taken off them. */
  readonly countIn: number;
  /** Beats that click all through. */
  readonly click: 'off' | 'all' | 'downbeats' | 'backbeats';
  /** Whether the bass sounds an octave higher, for small loudspeakers. */
  readonly register: 'as-sounding' | 'octave-up';
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
  /** Where the music begins, after the count-in. */
  readonly start: Fraction;
  readonly end: Fraction;
  /** Sorted; the first stands at 0. Quarter notes a minute, the speed applied. */
  readonly tempos: readonly { readonly onset: Fraction; readonly quarters: number }[];
}

/** Used where a tune names no tempo: 100 quarter notes a minute, a walking pace. */
const unnamedTempo = 100;

/** Loudness by how a note begins: accents stand out, hammered and pulled notes are weaker than plucked ones (trade facts, a judgement). */
const loudness = { plain: 0.72, accented: 0.95, slurred: 0.5, dead: 0.35 } as const;

/** Lays a tune out for playing. */
export function timelineOf(tune: HandoutTune, options: PracticeOptions): Timeline {
  const start = countInLength(tune, options);
  const notes = tune.played.voices.flatMap(({ voice, events }) => voiceNotes(tune, voice, events, options));
  return {
    notes: notes.map((note) => ({ ...note, onset: add(note.onset, start) })).sort(byOnset),
    clicks: [...countIn(tune, start), ...clicks(tune, options).map((click) => ({ ...click, onset: add(click.onset, start) }))],
    start,
    end: add(tune.played.end, start),
    tempos: temposOf(tune, start, options.speed),
  };
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

function temposOf(tune: HandoutTune, start: Fraction, speed: number): Timeline['tempos'] {
  const written = tune.played.tempos.map(({ onset, beat, bpm }) => ({
    onset: add(onset, start),
    quarters: bpm * toNumber(beat) * 4 * speed,
  }));
  const first = written[0];
  // The count-in takes the tempo the music begins with.
  if (first && compare(first.onset, start) === 0) return [{ ...first, onset: ZERO }, ...written.slice(1)];
  return [{ onset: ZERO, quarters: unnamedTempo * speed }, ...written];
}

/** The voice that is clapped to: the first with bars. */
const leadVoice = (tune: HandoutTune): Voice | undefined => tune.score.voices.find((voice) => voice.bars.length > 0);

function countInLength(tune: HandoutTune, options: PracticeOptions): Fraction {
  const bar = leadVoice(tune)?.bars[0];
  if (!bar || options.countIn === 0) return ZERO;
  const full = mul(bar.nominal ?? fraction(1, 1), fraction(options.countIn, 1));
  return isPickup(bar) ? sub(full, bar.duration) : full;
}

function countIn(tune: HandoutTune, length: Fraction): readonly Click[] {
  const bar = leadVoice(tune)?.bars[0];
  if (!bar) return [];
  const beat = beatOf(bar);
  const whole = bar.nominal ?? fraction(1, 1);
  const found: Click[] = [];
  for (let i = 0; compare(mul(beat, fraction(i, 1)), length) < 0; i++) {
    const onset = mul(beat, fraction(i, 1));
    found.push({ onset, accent: (toNumber(onset) / toNumber(whole)) % 1 === 0 ? 'strong' : 'weak' });
  }
  return found;
}

function clicks(tune: HandoutTune, options: PracticeOptions): readonly Click[] {
  const voice = leadVoice(tune);
  const order = tune.played.voices.find((played) => played.voice === voice?.id)?.order ?? [];
  if (!voice || options.click === 'off') return [];
  return order.flatMap(({ bar, onset }) =>
    beatsIn(voice.bars[bar]!)
      .filter(({ beat }) => options.click === 'all' || beat % 2 === (options.click === 'backbeats' ? 1 : 0))
      .map(({ at, beat }): Click => ({ onset: add(onset, at), accent: beat === 0 ? 'strong' : 'weak' })),
  );
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
