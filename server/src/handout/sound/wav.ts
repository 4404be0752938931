// A practice track as a WAV file: plucked bass, clicks, count-in; mono, 16 bit, 44.1 kHz.
import { add } from '../../score/fraction.ts';
import type { HandoutTune } from '../types.ts';
import { addPluck, sampleRate, throughBody } from './pluck.ts';
import { type PracticeOptions, secondsAt, type Timeline, timelineOf } from './timeline.ts';

/** Seconds of silence before the first sound, so that no player swallows it, and for the last note to ring out. */
const tail = 1.2;
/** Longer tracks are refused: 30 minutes are 159 MB. */
const longest = 30 * 60;

/** The track's bytes, or a message for the player where there is nothing to play or it is too long. */
export function wavFile(tune: HandoutTune, options: PracticeOptions): Uint8Array | { readonly problem: string } {
  const timeline = timelineOf(tune, options);
  if (timeline.notes.length === 0) return { problem: 'there are no notes to play.' };
  const seconds = secondsAt(timeline, timeline.end) + tail;
  if (seconds > longest)
    return { problem: `the track would last ${Math.round(seconds / 60)} minutes; choose a faster tempo or a shorter tune.` };
  return encode(mixed(timeline, Math.ceil(seconds * sampleRate)));
}

/** The sound as samples from -1 to 1. */
function mixed(timeline: Timeline, length: number): Float32Array {
  const strings = new Float32Array(length);
  for (const [i, note] of timeline.notes.entries()) {
    const from = secondsAt(timeline, note.onset);
    addPluck(strings, Math.round(from * sampleRate), {
      frequency: 440 * 2 ** ((note.midi - 69) / 12),
      seconds: secondsAt(timeline, add(note.onset, note.duration)) - from,
      loudness: note.loudness * 0.5,
      attack: note.attack,
      seed: i + 1,
    });
  }
  const out = throughBody(strings);
  for (const event of timeline.backing) addBacking(out, event, timeline);
  for (const { onset, accent } of timeline.clicks) addClick(out, Math.round(secondsAt(timeline, onset) * sampleRate), accent);
  return leveled(out);
}

/** Chords and drone: quiet beside the bass, the more tones the quieter each (our choice). */
function addBacking(out: Float32Array, event: Timeline['backing'][number], timeline: Timeline): void {
  const from = secondsAt(timeline, event.onset);
  const seconds = secondsAt(timeline, add(event.onset, event.duration)) - from;
  const at = Math.round(from * sampleRate);
  for (const midi of event.midi) {
    const frequency = 440 * 2 ** ((midi - 69) / 12);
    if (event.kind === 'drone') addHeld(out, at, frequency, seconds, 0.09 / event.midi.length);
    else addPluck(out, at, { frequency, seconds, loudness: 0.3 / event.midi.length, attack: 'soft', seed: midi });
  }
}

/** A held tone of three partials that swells and fades, so that neither end clicks. */
function addHeld(out: Float32Array, at: number, frequency: number, seconds: number, level: number): void {
  const length = Math.min(out.length - at, Math.round(seconds * sampleRate));
  const swell = Math.min(0.15 * sampleRate, length / 2);
  for (let i = 0; i < length; i++) {
    const turn = (2 * Math.PI * frequency * i) / sampleRate;
    const shape = Math.min(1, i / swell, (length - i) / swell);
    out[at + i]! += level * shape * (Math.sin(turn) + 0.4 * Math.sin(2 * turn) + 0.2 * Math.sin(3 * turn));
  }
}

/** A short wooden tick: a sine that dies in 30 ms. */
function addClick(out: Float32Array, at: number, accent: 'strong' | 'weak'): void {
  const [frequency, level] = accent === 'strong' ? [1760, 0.4] : [1320, 0.28];
  const length = Math.min(out.length - at, Math.round(0.03 * sampleRate));
  for (let i = 0; i < length; i++) {
    const t = i / sampleRate;
    out[at + i]! += level * Math.exp(-t / 0.008) * Math.sin(2 * Math.PI * frequency * t);
  }
}

/** Turned down where peaks would clip. */
function leveled(out: Float32Array): Float32Array {
  let peak = 0;
  for (const value of out) peak = Math.max(peak, Math.abs(value));
  return peak > 0.9 ? out.map((value) => (value * 0.9) / peak) : out;
}

/** RIFF WAVE, PCM: 44 bytes of header and the samples, low byte first. */
function encode(samples: Float32Array): Uint8Array {
  const bytes = new Uint8Array(44 + samples.length * 2);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string): void => {
    for (let i = 0; i < 4; i++) bytes[at + i] = text.charCodeAt(i);
  };
  word(0, 'RIFF');
  view.setUint32(4, 36 + samples.length * 2, true);
  word(8, 'WAVE');
  word(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true); // PCM
  view.setUint16(22, 1, true); // one channel
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * 2, true); // bytes a second
  view.setUint16(32, 2, true); // bytes a sample
  view.setUint16(34, 16, true); // bits a sample
  word(36, 'data');
  view.setUint32(40, samples.length * 2, true);
  for (let i = 0; i < samples.length; i++) view.setInt16(44 + 2 * i, Math.round(samples[i]! * 32767), true);
  return bytes;
}
