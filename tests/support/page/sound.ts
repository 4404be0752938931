// Renders planned sounds without a clock of its own, for tests: the same instrument on an offline context.
import type { Sound } from '../../../client/webview/player/plan.ts';
import { makeInstrument } from '../../../client/webview/player/voice.ts';

const rate = 44_100;

/** Indices of the samples at which sound begins after silence of at least 10 ms, and the loudest sample after each. */
async function onsetsOf(sounds: readonly Sound[], seconds: number): Promise<{ readonly at: number; readonly peak: number }[]> {
  const context = new OfflineAudioContext(1, Math.ceil(seconds * rate), rate);
  const instrument = makeInstrument(context);
  for (const sound of sounds) instrument.play(sound, sound.at);
  const samples = (await context.startRendering()).getChannelData(0);
  const onsets: { at: number; peak: number }[] = [];
  let silent = rate;
  samples.forEach((value, i) => {
    const loud = Math.abs(value);
    if (loud > 1e-7) {
      if (silent > rate / 100) onsets.push({ at: i, peak: 0 });
      silent = 0;
      const last = onsets.at(-1)!;
      if (loud > last.peak) last.peak = loud;
    } else silent++;
  });
  return onsets;
}

(window as unknown as { onsetsOf: typeof onsetsOf }).onsetsOf = onsetsOf;
