// From written time to seconds: the tune's tempos, a share of them, and the loop that is played.
import type { ScenePlayback } from '../../../server/src/engraving/index.ts';
import { leastShare } from '../../practice.ts';

/** Seconds of a whole note at a tempo. */
const wholeNote = (tempo: { readonly beat: number; readonly bpm: number }): number => 60 / tempo.bpm / tempo.beat;

/** The tempo at the start, in beats a minute as the first bar is counted, whatever note the text tells it in. */
export const beatsAMinute = (playback: ScenePlayback): number => 60 / (wholeNote(playback.tempos[0]!) * playback.counts[0]!.beat);

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
export function secondsAt({ tempos }: ScenePlayback, onset: number): number {
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
export const paceAt = ({ tempos }: ScenePlayback, onset: number): number =>
  wholeNote(tempos.findLast((tempo) => tempo.onset <= onset + 1e-9) ?? tempos[0]!);

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

/** The share of the tune's tempo that is `by` beats a minute faster, at least the least share. */
export function sharePlus(playback: ScenePlayback, share: number, by: number): number {
  const bpm = beatsAMinute(playback);
  return Math.max(leastShare, (share * bpm + by) / bpm);
}
