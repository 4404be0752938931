// A plucked string by calculation: a delay line with a low-pass in its loop (Karplus and Strong 1983, tuned as Jaffe and Smith 1983).

/** A generator of even noise from a seed, so that the same note always sounds the same. */
function noise(seed: number): () => number {
  let state = seed >>> 0 || 1;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 0x80000000 - 1;
  };
}

/** Where along the string it is plucked, as a share of its length. */
const pluckPoint = 0.22;
const noiseShare = 0.1;
const softness = 0.42;

/** The string as it leaves the finger: a triangle with a little noise, without its mean. */
function pluckedShape(length: number, seed: number): Float64Array {
  const random = noise(seed);
  const peak = Math.max(1, Math.round(length * pluckPoint));
  const shape = Float64Array.from({ length }, (_, i) => {
    const triangle = i < peak ? i / peak : (length - i) / (length - peak);
    return triangle + noiseShare * random();
  });
  const mean = shape.reduce((sum, value) => sum + value, 0) / length;
  return shape.map((value) => value - mean);
}

export const frequencyOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);

/** Seconds for a note to fall 20 dB: from 0.86 at E1 (MIDI 28) to 0.51 at G4 (67), as a gut-like string does. */
const fallTime = (midi: number): number => 0.86 + ((midi - 28) / (67 - 28)) * (0.51 - 0.86);

/**
 * Samples of a plucked note from -1 to 1. `rate` in samples a second. The loop's length is the delay line, the low-pass's
 * phase delay and an allpass for the fraction, so the pitch is exact.
 */
export function pluckedString(midi: number, seconds: number, rate: number): Float32Array {
  const frequency = frequencyOf(midi);
  const turn = (2 * Math.PI * frequency) / rate;
  const lowPassDelay = Math.atan2(softness * Math.sin(turn), 1 - softness * Math.cos(turn)) / turn;
  const lowPassGain = (1 - softness) / Math.hypot(1 - softness * Math.cos(turn), softness * Math.sin(turn));
  const period = rate / frequency - lowPassDelay;
  const line = Math.floor(period - 0.3);
  const rest = period - line;
  const allpass = Math.sin(((1 - rest) * turn) / 2) / Math.sin(((1 + rest) * turn) / 2);
  const gain = Math.min(0.99999, 10 ** (-1 / (fallTime(midi) * frequency)) / lowPassGain);
  const loop = pluckedShape(line, midi * 7919);
  const out = new Float32Array(Math.round(seconds * rate));
  let low = 0;
  let passedIn = 0;
  let passedOut = 0;
  for (let n = 0; n < out.length; n++) {
    const i = n % line;
    const value = loop[i]!;
    low = (1 - softness) * value + softness * low;
    passedOut = allpass * low + passedIn - allpass * passedOut;
    passedIn = low;
    loop[i] = gain * passedOut;
    out[n] = value;
  }
  return out;
}
