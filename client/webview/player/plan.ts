// What will sound and when: plain numbers, no clock, no audio.
import type { Plan } from '../../../server/src/arrangement/types.ts';
import type { ScenePlayback } from '../../../server/src/engraving/index.ts';
import type { NoteId, VoiceId } from '../../../server/src/score/types.ts';
import type { Practice } from '../../practice.ts';
import { countAt, nextBar, paceAt, type Stretch, secondsAt } from './time.ts';

export type Clicks = Practice['clicks'];

/** What is played of a tune, and how it is practised. */
export interface PlayOptions extends Omit<Practice, 'repeat'> {
  readonly stretch: Stretch;
  readonly bassVoices: readonly VoiceId[];
}

/**
 * Something that sounds, at seconds from the start of the count-in; `place` is where in the music, in whole notes (a count-in lies before
 * it), and `until` where it ends.
 */
export type Sound = { readonly at: number; readonly place: number } & (
  | {
      readonly kind: 'note';
      readonly until: number;
      readonly midi: number;
      readonly loudness: number;
      readonly attack: 'pluck' | 'slur';
      /** Whether a bass plays it. */
      readonly part: 'bass' | 'other';
      readonly note: NoteId;
    }
  | {
      readonly kind: 'backing';
      readonly voice: 'chord' | 'drone';
      readonly until: number;
      readonly midi: number;
      readonly loudness: number;
    }
  | { readonly kind: 'click'; readonly accent: 'first' | 'other' }
);

export interface PlayPlan {
  readonly sounds: readonly Sound[];
  /** Seconds of the count-in. */
  readonly countIn: number;
  /** Seconds of one round, count-in not included. */
  readonly round: number;
  readonly stretch: Stretch;
  /** Seconds from the start of the count-in to a place in the music. */
  at(place: number): number;
}

const plucked = 0.8;
/** A hammered or pulled note has no pluck of its own: quieter (common practice; the figure is our choice). */
const slurred = 0.5;
const guideLoudness = 0.25;
/** Of all tones of a chord or drone together (our choice). */
const backingLoudness = { chord: 0.3, drone: 0.1 } as const;

type Attack = Plan['notes'][number]['attack'];

const attacksOf = (plans: readonly Plan[]): ReadonlyMap<NoteId, Attack> =>
  new Map(plans.flatMap((plan) => plan.notes.map((note) => [note.id, note.attack] as const)));

const isSlurred = (attack: Attack | undefined): boolean => attack === 'hammer' || attack === 'pull' || attack === 'glide';

/** Whether the step of a bar is clicked. Steps are counted from 0. */
function clicksOn(clicks: Clicks, index: number): boolean {
  switch (clicks) {
    case 'none':
      return false;
    case 'all':
      return true;
    case '1-3':
      return index % 2 === 0;
    case '2-4':
      return index % 2 === 1;
  }
}

/** Clicks inside a stretch: on all beats, or on the steps that backbeats are counted in. */
function clicksIn(playback: ScenePlayback, stretch: Stretch, clicks: Clicks): { readonly onset: number; readonly index: number }[] {
  return playback.counts.flatMap((count, i) => {
    const step = clicks === 'all' ? count.beat : count.step;
    const perBar = Math.round((count.beat * count.perBar) / step);
    const until = Math.min(stretch.to, playback.counts[i + 1]?.from ?? stretch.to);
    const found: { onset: number; index: number }[] = [];
    for (let n = Math.ceil((Math.max(stretch.from, count.from) - count.bar) / step - 1e-6); count.bar + n * step < until - 1e-6; n++) {
      if (clicksOn(clicks, n % perBar)) found.push({ onset: count.bar + n * step, index: n % perBar });
    }
    return found;
  });
}

/** The count-in: a full bar, and where the music begins within a bar, as far as it goes into that. */
function countIn(playback: ScenePlayback, options: PlayOptions): { readonly seconds: number; readonly sounds: Sound[] } {
  if (options.countIn === 'none') return { seconds: 0, sounds: [] };
  const { from } = options.stretch;
  const { bar, beat, perBar } = countAt(playback, from);
  const whole = beat * perBar;
  const length = whole + (((from - bar + 1e-6) % whole) - 1e-6);
  const seconds = (length * paceAt(playback, from)) / options.share;
  const sounds: Sound[] = [];
  for (let n = 0; n * beat < length - 1e-6; n++) {
    const place = from - length + n * beat;
    sounds.push({ kind: 'click', at: (n * beat * seconds) / length, place, accent: n % perBar === 0 ? 'first' : 'other' });
  }
  return { seconds, sounds };
}

/** Chords and drone of a stretch. A drone is taken up anew at each bar, so that it follows when the tempo changes. */
function backingIn(playback: ScenePlayback, { stretch, chords, drone }: PlayOptions): ScenePlayback['backing'] {
  return playback.backing.flatMap((event) => {
    if (event.kind === 'chord')
      return chords === 'soft' && event.onset >= stretch.from - 1e-9 && event.onset < stretch.to - 1e-9 ? event : [];
    if (drone === 'none') return [];
    const midi = drone === 'root' ? event.midi.slice(0, 1) : event.midi;
    const [from, to] = [Math.max(event.onset, stretch.from), Math.min(event.onset + event.duration, stretch.to)];
    const held: { kind: 'drone'; onset: number; duration: number; midi: readonly number[] }[] = [];
    for (let onset = from; onset < to - 1e-6; ) {
      const next = Math.min(to, nextBar(playback, onset));
      held.push({ kind: 'drone', onset, duration: next - onset, midi });
      onset = next;
    }
    return held;
  });
}

/** Plans one round of a stretch at a share of the tempo. */
export function planPlaying(playback: ScenePlayback, plans: readonly Plan[], options: PlayOptions): PlayPlan {
  const { stretch, share } = options;
  const lead = countIn(playback, options);
  const start = secondsAt(playback, stretch.from);
  /** The count-in keeps the tempo that the music begins with. */
  const at = (onset: number): number =>
    onset < stretch.from
      ? lead.seconds - ((stretch.from - onset) * paceAt(playback, stretch.from)) / share
      : lead.seconds + (secondsAt(playback, onset) - start) / share;
  const attacks = attacksOf(plans);
  const sounds: Sound[] = [...lead.sounds];
  for (const event of playback.events) {
    if (event.onset < stretch.from - 1e-9 || event.onset >= stretch.to - 1e-9) continue;
    const slur = isSlurred(attacks.get(event.note));
    const loudness = slur ? slurred : plucked;
    const part = options.bassVoices.includes(event.voice) ? 'bass' : 'other';
    const note: Sound = {
      kind: 'note',
      at: at(event.onset),
      place: event.onset,
      until: event.onset + event.duration,
      midi: event.midi,
      loudness,
      attack: slur ? 'slur' : 'pluck',
      part,
      note: event.note,
    };
    sounds.push(note);
    if (options.guide === 'octave' && part === 'bass') {
      sounds.push({ ...note, midi: event.midi + 12, loudness: loudness * guideLoudness });
    }
  }
  for (const { kind, onset, duration, midi: tones } of backingIn(playback, options)) {
    const loudness = backingLoudness[kind] / tones.length;
    for (const midi of tones)
      sounds.push({ kind: 'backing', voice: kind, at: at(onset), place: onset, until: onset + duration, midi, loudness });
  }
  for (const { onset, index } of clicksIn(playback, stretch, options.clicks))
    sounds.push({ kind: 'click', at: at(onset), place: onset, accent: index === 0 ? 'first' : 'other' });
  return { sounds: sounds.sort((a, b) => a.at - b.at), countIn: lead.seconds, round: at(stretch.to) - lead.seconds, stretch, at };
}

/** The sounds of round `round` (0 is the first), moved to where they fall; only the first has a count-in. */
export function soundsOfRound(plan: PlayPlan, round: number): Sound[] {
  if (round === 0) return [...plan.sounds];
  return plan.sounds.filter((sound) => sound.at >= plan.countIn - 1e-9).map((sound) => ({ ...sound, at: sound.at + round * plan.round }));
}
