// The player: a Web Audio clock, the run on it, and the note that sounds now.
import type { NoteId } from '../../../server/src/score/types.ts';
import type { Repeat } from './clock.ts';
import type { PlayPlan } from './plan.ts';
import { interval, makeRun, type Run } from './run.ts';
import { decodeSamples, type RawSample, type Sample } from './samples.ts';
import { type Instrument, makeInstrument } from './voice.ts';

export interface Player {
  start(plan: PlayPlan, repeat: Repeat): void;
  /** Another tempo, other clicks, a loop or its end: without a gap. */
  change(plan: PlayPlan, repeat: Repeat): void;
  stop(): void;
  /** The recorded bass that was asked for. */
  takeSamples(raw: readonly RawSample[]): void;
  readonly playing: boolean;
}

/** What the player tells the page. */
export interface Listener {
  /** Each note as it sounds, null at the end. */
  onNote(note: NoteId | null): void;
  /** The playing has ended, by itself or by stop. */
  onEnd(): void;
  /** The recorded bass is wanted; asked once, before the first sound. */
  onSamplesWanted(): void;
}

/** Seconds from the click to the first sound. */
const leadIn = 0.08;
/** Milliseconds for which the first sound waits for the recorded bass; after that the calculated one plays until the next start. */
const patience = 800;
const none: readonly Sample[] = [];

export function makePlayer({ onNote, onEnd, onSamplesWanted }: Listener): Player {
  let context: AudioContext | null = null;
  let instrument: Instrument | null = null;
  /** The samples in the instrument. */
  let inside = none;
  let run: Run | null = null;
  /** What is to be played once the samples are there, or patience is at its end. */
  let wanted: { plan: PlayPlan; repeat: Repeat } | null = null;
  let samples: 'unasked' | 'asked' | 'late' | readonly Sample[] = 'unasked';
  let timer: number | null = null;
  let coming: { readonly note: NoteId; readonly time: number }[] = [];
  let frame: number | null = null;

  const playing = (): boolean => run !== null || wanted !== null;

  function stop(): void {
    if (!playing()) return;
    if (timer !== null) window.clearInterval(timer);
    if (frame !== null) cancelAnimationFrame(frame);
    timer = null;
    frame = null;
    run = null;
    wanted = null;
    coming = [];
    instrument?.stop();
    onNote(null);
    onEnd();
  }

  /** Asks for the recorded bass; what is to be played then waits for it, as long as patience lasts. */
  function ask(): void {
    samples = 'asked';
    onSamplesWanted();
    window.setTimeout(() => {
      if (samples !== 'asked') return;
      samples = 'late';
      begin();
    }, patience);
  }

  function begin(): void {
    if (context === null || wanted === null) return;
    const { plan, repeat } = wanted;
    wanted = null;
    const recorded = typeof samples === 'string' ? none : samples;
    // The strings that it has calculated are kept from one start to the next.
    if (instrument === null || recorded !== inside) instrument = makeInstrument(context, recorded);
    inside = recorded;
    run = makeRun(instrument, plan, context.currentTime + leadIn, repeat);
    pump();
    timer = window.setInterval(pump, interval * 1000);
    frame = requestAnimationFrame(follow);
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
      void context.resume();
      wanted = { plan, repeat };
      if (samples === 'unasked') ask();
      else if (samples !== 'asked') begin();
    },
    change(plan, repeat) {
      if (wanted !== null) Object.assign(wanted, { plan, repeat });
      else run?.change(plan, repeat);
    },
    stop,
    takeSamples(raw) {
      if (context === null) return;
      void decodeSamples(context, raw).then((decoded) => {
        samples = decoded;
        begin();
      });
    },
    get playing() {
      return playing();
    },
  };
}
