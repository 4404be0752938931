// The recorded bass: notes of media/bass, decoded once, and which of them a pitch is played from.
import type { Tone } from './voice.ts';

/** A file of media/bass as its bytes; `root` is the MIDI number it was recorded at. */
export interface RawSample {
  readonly root: number;
  readonly bytes: Uint8Array;
}

interface Facts {
  /** Where a long note goes round, in seconds from the sample's start. */
  readonly loop: { readonly from: number; readonly to: number };
  /** Seconds from which on it falls, and by how many dB a second. */
  readonly held: number;
  readonly falls: number;
  /** How sharp it was found to be against its root (by autocorrelation, 0.15 to 0.6 s into it). */
  readonly cents: number;
}

const facts = (from: number, to: number, held: number, falls: number, cents: number): Facts => ({
  loop: { from: from / 44_100, to: to / 44_100 },
  held,
  falls,
  cents,
});

/** By root, as scripts/make-bass.mjs tells them. */
const known: Readonly<Record<number, Facts>> = {
  28: facts(76_560, 78_701, 1.5, 3.4, 4.5),
  29: facts(90_123, 91_133, 1.3, 4, 3.4),
  36: facts(51_742, 52_417, 1.2, 4.5, -2.3),
  41: facts(52_903, 53_409, 1.1, 5.9, 0.6),
  46: facts(43_947, 44_705, 1, 7.4, -5),
  54: facts(36_227, 36_704, 0.9, 10.2, 1.4),
  60: facts(42_151, 42_657, 0.65, 12.2, 0),
  66: facts(37_190, 37_667, 0.55, 12.3, 0),
};

export const sampleRoots: readonly number[] = Object.keys(known).map(Number);

export interface Sample extends Facts {
  readonly root: number;
  readonly buffer: AudioBuffer;
  /** Seconds of silence at its start. */
  readonly silence: number;
}

/** What is under this share of the loudest sample counts as silence before the note. */
const silent = 0.01;

function silenceOf(buffer: AudioBuffer): number {
  const samples = buffer.getChannelData(0);
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return (
    Math.max(
      0,
      samples.findIndex((value) => Math.abs(value) > silent * peak),
    ) / buffer.sampleRate
  );
}

/** Decodes the samples; empty if one of them cannot be, for a bass of two kinds of sound is none. */
export async function decodeSamples(context: BaseAudioContext, raw: readonly RawSample[]): Promise<readonly Sample[]> {
  const decoded = raw.map(async ({ root, bytes }): Promise<Sample | null> => {
    const found = known[root];
    if (found === undefined) return null;
    // A copy: decoding takes the bytes away.
    const buffer = await context.decodeAudioData(Uint8Array.from(bytes).buffer);
    return { ...found, root, buffer, silence: silenceOf(buffer) };
  });
  try {
    const samples = await Promise.all(decoded);
    return samples.every((each) => each !== null) ? samples : [];
  } catch {
    return [];
  }
}

/** Seconds of a sample, from its sound on, that are the pluck's noise. */
const pluckNoise = 0.04;

/** The note `midi` from the nearest root, to begin at `time`; a slurred one without its pluck. `samples` must not be empty. */
export function recordedNote(
  context: BaseAudioContext,
  samples: readonly Sample[],
  note: { readonly midi: number; readonly attack: 'pluck' | 'slur' },
  time: number,
): Tone {
  const far = (sample: Sample): number => Math.abs(sample.root - note.midi);
  const sample = samples.reduce((best, each) => (far(each) < far(best) ? each : best));
  const source = context.createBufferSource();
  source.buffer = sample.buffer;
  source.playbackRate.value = 2 ** ((note.midi - sample.root) / 12 - sample.cents / 1200);
  source.loop = true;
  source.loopStart = sample.loop.from;
  source.loopEnd = sample.loop.to;
  const fall = context.createGain();
  fall.gain.setValueAtTime(1, time);
  // A time constant is the fall to 1/e, 8.686 dB.
  fall.gain.setTargetAtTime(0, time + sample.held, 8.686 / sample.falls);
  const from = sample.silence + (note.attack === 'slur' ? pluckNoise : 0);
  return { source, output: source.connect(fall), start: (at) => source.start(at, from) };
}
