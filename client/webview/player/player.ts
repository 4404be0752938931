// The player: a Web Audio clock, the feed, and the note that sounds now.
import type { NoteId } from '../../../server/src/score/types.ts';
import { type Feed, makeFeed } from './clock.ts';
import type { PlayPlan } from './plan.ts';
import { type Instrument, makeInstrument } from './voice.ts';

export interface Player {
  start(plan: PlayPlan, repeat: 'once' | 'loop'): void;
  /** Another tempo, other clicks: without a gap. */
  change(plan: PlayPlan): void;
  stop(): void;
  readonly playing: boolean;
}

/** How far ahead sounds are put on the clock, and how often the feed is asked, in seconds. */
const ahead = 0.2;
const interval = 0.05;
const leadIn = 0.08;

/** `onNote` is told each note as it sounds, null at the end; `onEnd` when the playing ends by itself or by stop. */
export function makePlayer(onNote: (note: NoteId | null) => void, onEnd: () => void): Player {
  let context: AudioContext | null = null;
  let instrument: Instrument | null = null;
  let feed: Feed | null = null;
  let timer: number | null = null;
  let coming: { readonly note: NoteId; readonly time: number }[] = [];
  let frame: number | null = null;

  function stop(): void {
    if (feed === null) return;
    if (timer !== null) window.clearInterval(timer);
    if (frame !== null) cancelAnimationFrame(frame);
    timer = null;
    frame = null;
    feed = null;
    coming = [];
    instrument?.stop();
    onNote(null);
    onEnd();
  }

  function pump(): void {
    if (context === null || instrument === null || feed === null) return;
    const now = context.currentTime;
    for (const { sound, time } of feed.due(now + ahead)) {
      instrument.play(sound, time);
      if (sound.kind === 'note') coming.push({ note: sound.note, time });
    }
    if (now > feed.end) stop();
  }

  /** Follows the sound at the screen's pace. */
  function follow(): void {
    if (context === null || feed === null) return;
    const now = context.currentTime;
    const sounded = coming.filter(({ time }) => time <= now).at(-1);
    if (sounded !== undefined) {
      coming = coming.filter(({ time }) => time > now);
      onNote(sounded.note);
    }
    frame = requestAnimationFrame(follow);
  }

  return {
    start(plan, repeat) {
      stop();
      context ??= new AudioContext();
      instrument ??= makeInstrument(context);
      void context.resume();
      feed = makeFeed(plan, context.currentTime + leadIn, repeat);
      pump();
      timer = window.setInterval(pump, interval * 1000);
      frame = requestAnimationFrame(follow);
    },
    change: (plan) => feed?.change(plan),
    stop,
    get playing() {
      return feed !== null;
    },
  };
}
