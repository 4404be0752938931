// The player: a Web Audio clock, the run on it, and the note that sounds now.
import type { NoteId } from '../../../server/src/score/types.ts';
import type { PlayPlan } from './plan.ts';
import { interval, makeRun, type Run } from './run.ts';
import { type Instrument, makeInstrument } from './voice.ts';

export interface Player {
  start(plan: PlayPlan, repeat: 'once' | 'loop'): void;
  /** Another tempo, other clicks: without a gap. */
  change(plan: PlayPlan): void;
  stop(): void;
  readonly playing: boolean;
}

/** Seconds from the click to the first sound. */
const leadIn = 0.08;

/** `onNote` is told each note as it sounds, null at the end; `onEnd` when the playing ends by itself or by stop. */
export function makePlayer(onNote: (note: NoteId | null) => void, onEnd: () => void): Player {
  let context: AudioContext | null = null;
  let instrument: Instrument | null = null;
  let run: Run | null = null;
  let timer: number | null = null;
  let coming: { readonly note: NoteId; readonly time: number }[] = [];
  let frame: number | null = null;

  function stop(): void {
    if (run === null) return;
    if (timer !== null) window.clearInterval(timer);
    if (frame !== null) cancelAnimationFrame(frame);
    timer = null;
    frame = null;
    run = null;
    coming = [];
    instrument?.stop();
    onNote(null);
    onEnd();
  }

  function pump(): void {
    if (context === null || run === null) return;
    const now = context.currentTime;
    for (const { sound, time } of run.pump(now)) if (sound.kind === 'note') coming.push({ note: sound.note, time });
    if (run.over(now)) stop();
  }

  /** Follows the sound at the screen's pace. */
  function follow(): void {
    if (context === null || run === null) return;
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
      run = makeRun(instrument, plan, context.currentTime + leadIn, repeat);
      pump();
      timer = window.setInterval(pump, interval * 1000);
      frame = requestAnimationFrame(follow);
    },
    change: (plan) => run?.change(plan),
    stop,
    get playing() {
      return run !== null;
    },
  };
}
