// Renders what the player plays on an offline clock, for tests: the same plan, run and instrument as on the page.
import { type PlayOptions, type PlayPlan, planPlaying, type Sound } from '../../../client/webview/player/plan.ts';
import { interval, makeRun } from '../../../client/webview/player/run.ts';
import { decodeSamples } from '../../../client/webview/player/samples.ts';
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
  readonly changes: readonly { readonly at: number; readonly options: PlayOptions; readonly repeat?: Session['repeat'] }[];
  readonly seconds: number;
  /** Files of the recorded bass, in base64; the calculated string where there are none. */
  readonly samples: readonly { readonly root: number; readonly base64: string }[];
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
async function rendered(session: Session): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, Math.ceil(session.seconds * rate), rate);
  const raw = session.samples.map(({ root, base64 }) => ({ root, bytes: Uint8Array.from(atob(base64), (each) => each.charCodeAt(0)) }));
  const instrument = makeInstrument(context, await decodeSamples(context, raw));
  const run = makeRun(instrument, planOf(session, session.options), 0, session.repeat);
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
  for (const change of session.changes) at(change.at, () => run.change(planOf(session, change.options), change.repeat ?? session.repeat));
  const rendered = await context.startRendering();
  if (refused.length > 0) throw refused[0];
  return rendered.getChannelData(0);
}

const heardIn = async (session: Session): Promise<Heard> => measured(await rendered(session));

/** The pitch of one note by autocorrelation over many periods, in Hz. */
async function pitchOf(session: Session, expected: number): Promise<number> {
  const samples = await rendered(session);
  const [from, length] = [Math.round(0.12 * rate), Math.round(0.25 * rate)];
  const periods = Math.max(1, Math.floor((0.09 * rate) / (rate / expected)));
  const likeness = (lag: number): number => {
    let sum = 0;
    for (let i = 0; i < length; i++) sum += samples[from + i]! * samples[from + i + lag]!;
    return sum;
  };
  const around = (periods * rate) / expected;
  const lags = Array.from({ length: Math.ceil(around * 0.04) }, (_, i) => Math.round(around * 0.98) + i);
  const best = lags.reduce((found, lag) => (likeness(lag) > likeness(found) ? lag : found));
  const [before, at, after] = [likeness(best - 1), likeness(best), likeness(best + 1)];
  return (rate * periods) / (best + (0.5 * (before - after)) / (before - 2 * at + after));
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

Object.assign(window, { heardIn, pitchOf });
