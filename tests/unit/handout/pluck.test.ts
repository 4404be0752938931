// The plucked string: in tune, falling as set, the same every time.
import { describe, expect, it } from 'vitest';
import { addPluck, sampleRate, throughBody } from '../../../server/src/handout/sound/pluck.ts';
import { utf8 } from '../../../server/src/handout/utf8.ts';

const frequencyOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);

function sound(midi: number, seconds = 1): Float32Array {
  const out = new Float32Array(Math.round(1.3 * seconds * sampleRate));
  addPluck(out, 0, { frequency: frequencyOf(midi), seconds, loudness: 1, attack: 'pluck', seed: 1 });
  return out;
}

/** How strongly a frequency sounds in a stretch, under a Hann window. */
function strength(samples: Float32Array, frequency: number, from: number, length: number): number {
  let [re, im] = [0, 0];
  for (let i = 0; i < length; i++) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length);
    const angle = (2 * Math.PI * frequency * i) / sampleRate;
    re += window * samples[from + i]! * Math.cos(angle);
    im += window * samples[from + i]! * Math.sin(angle);
  }
  return Math.hypot(re, im);
}

/** Cents by which the fundamental is off, by search for the strongest frequency within half a semitone. */
function centsOff(samples: Float32Array, midi: number): number {
  const at = (cents: number): number => strength(samples, frequencyOf(midi) * 2 ** (cents / 1200), 4410, 30_000);
  let [low, high] = [-50, 50];
  while (high - low > 0.02) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (at(a) < at(b)) low = a;
    else high = b;
  }
  return (low + high) / 2;
}

describe('addPluck', () => {
  it.each([28, 33, 38, 43, 50, 57, 67])('is in tune at MIDI %i within a cent (A4 = 440, equal temperament)', (midi) => {
    expect(Math.abs(centsOff(sound(midi), midi))).toBeLessThan(1);
  });

  it('falls by 20 dB in the time set: 0.86 s at E1, 0.51 s at G4', () => {
    for (const [midi, seconds] of [
      [28, 0.86],
      [67, 0.51],
    ] as const) {
      const samples = sound(midi, 2);
      const [early, length] = [2205, 8820];
      const drop =
        strength(samples, frequencyOf(midi), early, length) /
        strength(samples, frequencyOf(midi), early + Math.round(seconds * sampleRate), length);
      expect(Math.abs(20 * Math.log10(drop) - 20)).toBeLessThan(1);
    }
  });

  it('is silent after its end, and equal for equal seeds', () => {
    const samples = sound(33, 0.5);
    expect(samples.subarray(Math.round(0.57 * sampleRate)).every((value) => value === 0)).toBe(true);
    expect(sound(33, 0.5)).toEqual(samples);
  });

  it('keeps its pitch through the body', () => {
    expect(Math.abs(centsOff(throughBody(sound(28)), 28))).toBeLessThan(1);
  });

  it.each([28, 43, 67])('begins and ends in silence, without a step that clicks: MIDI %i', (midi) => {
    const samples = sound(midi, 0.5);
    const loudest = samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
    expect(samples[0]).toBe(0);
    expect(Math.abs(samples[1]! - samples[0]!)).toBeLessThan(loudest / 20);
    expect(samples.slice(Math.round(0.57 * sampleRate)).every((value) => value === 0)).toBe(true);
  });
});

describe('utf8', () => {
  it('writes what the platform writes', () => {
    const text = 'Žluť Ω 𝄢 \ud800x';
    expect(utf8(text)).toEqual(new TextEncoder().encode(text));
  });
});
