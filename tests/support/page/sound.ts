// Renders what the player plays on an offline clock, for tests: the same plan, run and instrument as on the page.
import { type PlayOptions, type PlayPlan, planPlaying, type Sound } from '../../../client/webview/player/plan.ts';
import { interval, makeRun } from '../../../client/webview/player/run.ts';
import { makeInstrument } from '../../../client/webview/player/voice.ts';
import type { Plan } from '../../../server/src/arrangement/types.ts';
import type { ScenePlayback } from '../../../server/src/engraving/types.ts';

export const rate = 44_100;

export interface Session {
  readonly playback: ScenePlayback;
  readonly plans: readonly Plan[];
  readonly options: PlayOptions;
  readonly repeat: 'once' | 'loop';
  /** Full: as they are played. Short: cut after a 256th, so that each begins in silence. */
  readonly lengths: 'full' | 'short';
  /** What is chosen while it plays, and when, in seconds on the clock. */
  readonly changes: readonly { readonly at: number; readonly options: PlayOptions }[];
  readonly seconds: number;
}

export interface Heard {
  /** Indices of the samples at which sound begins after silence of at least 10 ms, and the loudest sample after each. */
  readonly onsets: readonly { readonly at: number; readonly peak: number }[];
  /** The longest silence between the first and the last sound, in seconds. */
  readonly silence: number;
}

const shortest = 1 / 256;

function planOf({ playback, plans, lengths }: Session, options: PlayOptions): PlayPlan {
  const plan = planPlaying(playback, plans, options);
  const short = (sound: Sound): Sound => (sound.kind === 'click' ? sound : { ...sound, until: sound.place + shortest });
  return lengths === 'full' ? plan : { ...plan, sounds: plan.sounds.map(short) };
}

/** Plays a session: the run is fed, and told of the changes, at the times at which the page's timer would be. */
async function heardIn(session: Session): Promise<Heard> {
  const context = new OfflineAudioContext(1, Math.ceil(session.seconds * rate), rate);
  const run = makeRun(makeInstrument(context), planOf(session, session.options), 0, session.repeat);
  run.pump(0);
  const refused: unknown[] = [];
  // Two stops within one block of 128 samples are refused: a change must not fall on the beat of the feeding.
  const at = (time: number, act: () => void): void => {
    context.suspend(time).then(
      () => {
        act();
        return context.resume();
      },
      (error: unknown) => refused.push(error),
    );
  };
  for (let time = interval; time < session.seconds; time += interval) at(time, () => run.pump(context.currentTime));
  for (const change of session.changes) at(change.at, () => run.change(planOf(session, change.options)));
  const rendered = await context.startRendering();
  if (refused.length > 0) throw refused[0];
  return measured(rendered.getChannelData(0));
}

function measured(samples: Float32Array): Heard {
  const onsets: { at: number; peak: number }[] = [];
  let silent = rate;
  let longest = 0;
  samples.forEach((value, i) => {
    const loud = Math.abs(value);
    if (loud <= 1e-7) {
      silent++;
      return;
    }
    if (onsets.length > 0) longest = Math.max(longest, silent);
    if (silent > rate / 100) onsets.push({ at: i, peak: 0 });
    silent = 0;
    const last = onsets.at(-1)!;
    if (loud > last.peak) last.peak = loud;
  });
  return { onsets, silence: longest / rate };
}

(window as unknown as { heardIn: typeof heardIn }).heardIn = heardIn;
