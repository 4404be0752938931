// A plucked string by physical modelling (Karplus & Strong 1983, extended by Jaffe & Smith 1983): in tune, seeded, nothing recorded.

export const sampleRate = 44_100;

/** How a note sounds. Frequencies in Hz, times in seconds. */
export interface Pluck {
  readonly frequency: number;
  readonly seconds: number;
  /** 0 to 1. */
  readonly loudness: number;
  readonly attack: 'pluck' | 'soft';
  readonly seed: number;
}

/** From 0 at E1 (41.2 Hz), the lowest open string, to 1 at G4 (392 Hz), the top of the board. */
const height = (frequency: number): number => Math.min(1, Math.max(0, Math.log(frequency / 41.2) / Math.log(392 / 41.2)));

/** Seconds until a string has fallen by 20 dB: 0.86 at E1 to 0.51 at G4, set after measured orchestral pizzicato (own measurement of open recordings). */
const fallingTime = (frequency: number): number => 0.86 - 0.35 * height(frequency);

/** Where along the string it is plucked, as a share of its length: the triangle's corner. */
const corner = 0.22;
/** Seconds in which a finger damps the string at a note's end. */
const damping = 0.06;
/** Seconds in which a note comes in, so that its first sample is no step that clicks; a hammered one has no pluck. */
const rise = { pluck: 0.002, soft: 0.012 } as const;
/** Coefficient of the loop's low-pass: low strings are darker. */
const darkness = (frequency: number): number => 0.6 - 0.32 * height(frequency);

/** Adds the note to `out` from sample `at` on. What falls beyond the end is left out. */
export function addPluck(out: Float32Array, at: number, pluck: Pluck): void {
  const a = darkness(pluck.frequency);
  const { whole, allpass } = delays(pluck.frequency, a);
  const line = excitation(whole, pluck);
  const gain = loopGain(pluck.frequency, a);
  const length = Math.min(out.length - at, Math.round((pluck.seconds + damping) * sampleRate));
  const held = Math.round(pluck.seconds * sampleRate);
  let [low, lastIn, lastOut] = [0, 0, 0];
  for (let i = 0; i < length; i++) {
    const k = i % whole;
    const now = line[k]!;
    const release = i < held ? 1 : Math.max(0, 1 - (i - held) / (damping * sampleRate));
    out[at + i]! += now * pluck.loudness * release * Math.min(1, i / (rise[pluck.attack] * sampleRate));
    low = (1 - a) * now * gain + a * low;
    lastOut = allpass * (low - lastOut) + lastIn;
    lastIn = low;
    line[k] = lastOut;
  }
}

/** Loop length: whole samples, and an allpass coefficient for the rest, the low-pass's own delay taken off. */
function delays(frequency: number, a: number): { whole: number; allpass: number } {
  const w = (2 * Math.PI * frequency) / sampleRate;
  const filterDelay = Math.atan2(a * Math.sin(w), 1 - a * Math.cos(w)) / w;
  const total = sampleRate / frequency - filterDelay;
  // The allpass is best behaved for a delay between 0.5 and 1.5 samples.
  const whole = Math.floor(total - 0.5);
  const rest = total - whole;
  return { whole, allpass: Math.sin(((1 - rest) * w) / 2) / Math.sin(((1 + rest) * w) / 2) };
}

/** Gain of a turn of the loop, so that the fundamental falls by 20 dB in its time, the low-pass's loss taken off. */
function loopGain(frequency: number, a: number): number {
  const w = (2 * Math.PI * frequency) / sampleRate;
  const loss = (1 - a) / Math.sqrt(1 - 2 * a * Math.cos(w) + a * a);
  // Under 1 at every frequency (the low-pass passes 0 Hz whole), or the loop would swell.
  return Math.min(0.9999, 10 ** (-1 / (fallingTime(frequency) * frequency)) / loss);
}

/** One period of the string's shape when it is let go: a triangle and a little noise; rounder when hammered. */
function excitation(length: number, pluck: Pluck): Float32Array {
  const line = new Float32Array(length);
  const random = randomFrom(pluck.seed);
  const peak = corner * length;
  for (let i = 0; i < length; i++) line[i] = i < peak ? i / peak : (length - i) / (length - peak);
  let mean = 0;
  for (const value of line) mean += value / length;
  const noise = pluck.attack === 'soft' ? 0.02 : 0.1;
  for (let i = 0; i < length; i++) line[i] = line[i]! - mean + noise * (2 * random() - 1);
  return line;
}

/** Mulberry32, a small seeded generator of numbers from 0 to 1 (public domain algorithm). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Resonances of a bass body (Hz, Q, share), mixed beside three quarters of the string's own sound. Judged, not measured. */
const resonances = [
  { frequency: 62, q: 5, share: 0.35 },
  { frequency: 104, q: 6, share: 0.35 },
  { frequency: 180, q: 5, share: 0.25 },
  { frequency: 340, q: 4, share: 0.2 },
  { frequency: 720, q: 7, share: 0.12 },
] as const;

/** The string's sound through the body, a new buffer. */
export function throughBody(dry: Float32Array): Float32Array {
  const out = dry.map((value) => 0.75 * value);
  for (const { frequency, q, share } of resonances) addResonance(out, dry, frequency, q, share);
  return out;
}

/** A band-pass of peak gain 1 (biquad, R. Bristow-Johnson's cookbook). */
function addResonance(out: Float32Array, dry: Float32Array, frequency: number, q: number, share: number): void {
  const w = (2 * Math.PI * frequency) / sampleRate;
  const alpha = Math.sin(w) / (2 * q);
  const [b0, a1, a2] = [alpha / (1 + alpha), (-2 * Math.cos(w)) / (1 + alpha), (1 - alpha) / (1 + alpha)];
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let i = 0; i < dry.length; i++) {
    const x = dry[i]!;
    const y = b0 * (x - x2) - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    out[i]! += share * y;
  }
}
