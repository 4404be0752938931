// From written time to seconds: the tune's tempos, a share of them, and the loop that is played.
import type { ScenePlayback } from '../../../server/src/engraving/index.ts';

/** Where no tempo is written: 100 quarters a minute, a plain walking speed (our choice). */
const usualTempo = { onset: 0, beat: 1 / 4, bpm: 100 };

/** Seconds of a whole note at a tempo. */
const wholeNote = (tempo: { readonly beat: number; readonly bpm: number }): number => 60 / tempo.bpm / tempo.beat;

const firstTempo = (playback: ScenePlayback): { readonly beat: number; readonly bpm: number } => playback.tempos[0] ?? usualTempo;

/** The tempo at the start, in beats a minute as the first bar is counted, whatever note the text tells it in. */
export const beatsAMinute = (playback: ScenePlayback): number => 60 / (wholeNote(firstTempo(playback)) * playback.counts[0]!.beat);

/** How it is counted at a time. */
export const countAt = (playback: ScenePlayback, at: number): ScenePlayback['counts'][number] =>
  playback.counts.findLast(({ from }) => from <= at + 1e-6) ?? playback.counts[0]!;

/** Where the next bar begins after a time. */
export function nextBar(playback: ScenePlayback, at: number): number {
  const { bar, beat, perBar } = countAt(playback, at);
  const whole = beat * perBar;
  const next = bar + (Math.floor((at - bar) / whole + 1e-6) + 1) * whole;
  return Math.min(next, playback.counts.find(({ from }) => from > at + 1e-6)?.from ?? next);
}

/** Seconds from the tune's start to a written time, at the tune's own tempo. */
export function secondsAt(playback: ScenePlayback, onset: number): number {
  const tempos = playback.tempos.length > 0 ? playback.tempos : [usualTempo];
  let seconds = 0;
  let at = 0;
  let current = tempos[0]!;
  for (const tempo of tempos.slice(1)) {
    if (tempo.onset >= onset) break;
    seconds += (tempo.onset - at) * wholeNote(current);
    at = tempo.onset;
    current = tempo;
  }
  return seconds + (onset - at) * wholeNote(current);
}

/** Seconds of a whole note in the tempo that holds at a written time. */
export function paceAt(playback: ScenePlayback, onset: number): number {
  return wholeNote(playback.tempos.findLast((tempo) => tempo.onset <= onset + 1e-9) ?? firstTempo(playback));
}

/** A stretch of played-out time in whole notes. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The first sounding of written bars `first` to `last`, up to where the playing leaves them or turns back; null if they never sound. */
export function stretchOf(playback: ScenePlayback, first: number, last: number): Stretch | null {
  const start = playback.events.findIndex((event) => event.bar === first);
  if (start < 0) return null;
  const end = playback.events.findIndex((event, i) => i > start && (event.bar > last || event.bar < playback.events[i - 1]!.bar));
  return { from: playback.events[start]!.onset, to: end < 0 ? playback.end : playback.events[end]!.onset };
}

/** The share of the tune's tempo that is `by` beats a minute faster, at least a tenth. */
export function sharePlus(playback: ScenePlayback, share: number, by: number): number {
  const bpm = beatsAMinute(playback);
  return Math.max(0.1, (share * bpm + by) / bpm);
}
